// Laws of the member stiffness, on members with offsets, rolls and end springs of every kind.
#include <doctest/doctest.h>

#include <Eigen/Eigenvalues>
#include <cmath>

#include "solve/member_kernel.hpp"

namespace member_test {

using namespace standtrue;
using namespace standtrue::quantity;

namespace {

model::Elastic softwood() { return {pascals(11.2e9), pascals(0.7e9), from_si<Density>(420.0)}; }

model::Model one_member(double roll, bool springs) {
  model::Model m;
  m.nodes = {{"a", {metres(0.1), metres(-0.2), metres(0.3)}},
             {"b", {metres(1.3), metres(0.5), metres(0.9)}}};
  model::Member member;
  member.name = "ab";
  member.start = 0;
  member.end = 1;
  member.elastic = softwood();
  member.section = model::rectangle(millimetres(45), millimetres(95));
  member.roll = roll;
  member.start_offset = {millimetres(35), millimetres(12), millimetres(-20)};
  member.end_offset = {millimetres(-35), millimetres(5), millimetres(15)};
  if (springs) {
    member.start_springs[4] = model::EndSpring::elastic(2.0e3, 3.0e3);
    member.start_springs[5] = model::EndSpring::free_end();
    member.end_springs[0] = model::EndSpring::elastic(4.0e5);
    member.end_springs[4] = model::EndSpring::elastic(9.0e3);
    member.end_springs[3] = model::EndSpring::elastic(1.0e2);
  }
  m.members = {member};
  return m;
}

/// The movement of both nodes when space as a whole moves by t and turns by r about the origin.
solve::Vector12 rigid_motion(const model::Model& m, const Eigen::Vector3d& t,
                             const Eigen::Vector3d& r) {
  solve::Vector12 v;
  for (Eigen::Index i = 0; i < 2; ++i) {
    v.segment<3>(6 * i) = t + r.cross(solve::vector_of(m.nodes[static_cast<std::size_t>(i)].at));
    v.segment<3>(6 * i + 3) = r;
  }
  return v;
}

}  // namespace

TEST_CASE("solve/member: stiffness is symmetric, rank 6 and blind to rigid motion") {
  for (const double roll : {0.0, 0.4}) {
    for (const bool springs : {false, true}) {
      const model::Model m = one_member(roll, springs);
      const solve::MemberKernel kernel =
          solve::member_kernel(m, m.members[0], model::SpringSet::gravity);
      const solve::Matrix12 k = kernel.global_stiffness();
      CHECK((k - k.transpose()).norm() < 1e-12 * k.norm());
      for (Eigen::Index i = 0; i < 3; ++i) {
        const Eigen::Vector3d e = Eigen::Vector3d::Unit(i);
        CHECK((k * rigid_motion(m, e, Eigen::Vector3d::Zero())).norm() < 1e-12 * k.norm());
        CHECK((k * rigid_motion(m, Eigen::Vector3d::Zero(), e)).norm() < 1e-12 * k.norm());
      }
      const Eigen::VectorXd values =
          Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(k).eigenvalues();
      CHECK(std::abs(values(5)) < 1e-10 * values(11));
      // One freed freedom takes one rank away.
      CHECK((std::abs(values(6)) < 1e-10 * values(11)) == springs);
      CHECK(values(7) > 1e-9 * values(11));
    }
  }
}

TEST_CASE("solve/member: a spring in series adds its flexibility (cantilever with a soft clamp)") {
  // w = PL^3/3EI + PL/GA_s + PL^2/k at the tip: unit load.
  model::Model m;
  m.nodes = {{"a", {}}, {"b", {metres(0.9), metres(0), metres(0)}}};
  model::Member member;
  member.start = 0;
  member.end = 1;
  member.elastic = softwood();
  member.section = model::rectangle(millimetres(60), millimetres(120));
  const double k = 25e3;
  member.start_springs[4] = model::EndSpring::elastic(k);
  m.members = {member};
  const solve::MemberKernel kernel = solve::member_kernel(m, member, model::SpringSet::gravity);
  const solve::Matrix12 K = kernel.global_stiffness();
  const Eigen::Matrix<double, 6, 6> tip = K.bottomRightCorner<6, 6>();
  Eigen::Matrix<double, 6, 1> f = Eigen::Matrix<double, 6, 1>::Zero();
  const double P = 500.0;
  f(2) = -P;
  const Eigen::Matrix<double, 6, 1> u = tip.ldlt().solve(f);
  const double L = 0.9, EI = kernel.element.EI_y, GA = kernel.element.GA_sz;
  CHECK(-u(2) ==
        doctest::Approx(P * L * L * L / (3 * EI) + P * L / GA + P * L * L / k).epsilon(1e-12));
}

TEST_CASE("solve/member: loads pass through the springs with their resultant unchanged") {
  const model::Model m = one_member(0.3, true);
  const solve::MemberKernel kernel = solve::member_kernel(m, m.members[0], model::SpringSet::sway);
  Eigen::Matrix<double, 6, 1> load;
  load << 30.0, -50.0, -200.0, 4.0, 6.0, -3.0;
  const double at = 0.37;
  const solve::Vector12 f = solve::equivalent_forces(kernel.element, at, load);
  const solve::Vector12 nodes = kernel.global_load(f);
  const Eigen::Vector3d start =
      solve::vector_of(m.nodes[0].at) + solve::vector_of(m.members[0].start_offset);
  const Eigen::Vector3d axis = kernel.R.row(0).transpose();
  const Eigen::Vector3d place = start + at * axis;
  const Eigen::Vector3d force = kernel.R.transpose() * load.head<3>();
  const Eigen::Vector3d moment = kernel.R.transpose() * load.tail<3>() + place.cross(force);
  Eigen::Vector3d got_force = Eigen::Vector3d::Zero(), got_moment = Eigen::Vector3d::Zero();
  for (Eigen::Index i = 0; i < 2; ++i) {
    got_force += nodes.segment<3>(6 * i);
    got_moment +=
        nodes.segment<3>(6 * i + 3) +
        solve::vector_of(m.nodes[static_cast<std::size_t>(i)].at).cross(nodes.segment<3>(6 * i));
  }
  CHECK((got_force - force).norm() < 1e-9);
  CHECK((got_moment - moment).norm() < 1e-9);
}

TEST_CASE("solve/member: a bar free to turn about itself carries load but no torque") {
  model::Model m = one_member(0.0, false);
  for (auto* springs : {&m.members[0].start_springs, &m.members[0].end_springs}) {
    (*springs)[3] = (*springs)[4] = (*springs)[5] = model::EndSpring::free_end();
  }
  const solve::MemberKernel kernel =
      solve::member_kernel(m, m.members[0], model::SpringSet::gravity);
  CHECK(kernel.can_spin);
  Eigen::Matrix<double, 6, 1> push = Eigen::Matrix<double, 6, 1>::Zero();
  push(2) = -100.0;
  CHECK_FALSE(kernel.sets_spinning(solve::equivalent_forces(kernel.element, 0.4, push)));
  push(3) = 5.0;
  CHECK(kernel.sets_spinning(solve::equivalent_forces(kernel.element, 0.4, push)));
}

}  // namespace member_test
