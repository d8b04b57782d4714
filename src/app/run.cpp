#include "standtrue/app/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <functional>
#include <variant>

#include "app/reading.hpp"
#include "app/reporting.hpp"
#include "standtrue/bench/prices.hpp"
#include "standtrue/bench/readings.hpp"
#include "standtrue/bench/variants.hpp"
#include "standtrue/report/picture.hpp"
#include "standtrue/version.hpp"

namespace standtrue::app {

namespace {

/// An answer in every form that it has.
struct Forms {
  std::function<std::string()> json, text, report;
};

/// In those that are asked for.
Outcome told(const Options& options, int code, const Forms& forms) {
  Outcome outcome{options.json ? forms.json() : forms.text(), "", code};
  if (options.page) outcome.page = forms.text();
  if (options.report) outcome.report = forms.report();
  return outcome;
}

Outcome check(const Options& options, const std::string& file, const std::string& text) {
  return with_reading(
      file, text, [&](const bench::BenchReading& reading, const reference::Tables& tables) {
        bench::Bench meshed = *reading.bench;
        if (options.fine_mesh && meshed.analysis.mesh == quantity::Length{}) {
          meshed.analysis.mesh = quantity::millimetres(25.0);
        }
        const bool is_whole = options.extent == Extent::whole;
        // The engineer's output tells what the mesh may do; a page for the builder need not wait
        // for it.
        const bool engineer = (options.json && is_whole) || options.style.detail;
        const decide::Assessment assessment =
            options.extent == Extent::first_look
                ? decide::first_look(meshed, tables)
                : decide::assess(meshed, tables, engineer || options.report, nullptr, options.work);
        Outcome outcome =
            told(options, exit_code(assessment, options.strict),
                 {[&] { return report::json(assessment, file, std::string(version), is_whole); },
                  [&] { return report::text(assessment, options.style); },
                  [&] { return whole_report(assessment, tables, options, file); }});
        if (options.with_picture) {
          outcome.picture = report::json(is_whole ? decide::picture_of(assessment, tables)
                                                  : decide::outline_of(assessment, tables),
                                         assessment, reading.written);
        }
        return outcome;
      });
}

using Decision = decide::SideBySide (*)(const document::Document&, const bench::Bench&,
                                        const reference::Tables&, const decide::Work&);

/// Good when some bench was found that stands; a comparison that was stopped is not.
Outcome compare(Decision decision, const Options& options, const std::string& file,
                const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    const decide::SideBySide comparison = decision(*parsed.document, bench, tables, options.work);
    return told(options, comparison.complete ? all_good : not_good,
                {[&] { return report::json(comparison, file, std::string(version)); },
                 [&] { return report::text(comparison, bench.units, options.style); },
                 [&] { return report::html(comparison, bench, imprint_of(options, file)); }});
  });
}

/// Faults of the variants are faults of the file.
Outcome compare_variants(const Options& options, const std::string& file, const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  if (parsed.document) {
    std::vector<Diagnostic> faults;
    const auto all = bench::read_variants(*parsed.document, reference::load_tables(), faults);
    for (const bench::Variant& variant : all) {
      faults.insert(faults.end(), variant.reading.diagnostics.begin(),
                    variant.reading.diagnostics.end());
    }
    if (any_error(faults)) return wrong(file, faults, "nothing was compared.");
    if (all.empty()) {
      return {"",
              fmt::format("{}: the file has no 'variants'; write, for example:\n"
                          "  variants: {{thicker top: {{top: {{sheet: 24 mm spruce plywood}}}}}}\n",
                          file),
              wrong_file};
    }
  }
  return compare(decide::variants, options, file, text);
}

/// Good when feet that all press make it level and, of a machine, without twist.
Outcome level(const Options& options, const std::string& file, const std::string& text) {
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    const decide::Levelling set = decide::level(bench, tables);
    const bool is_good = set.why_none.empty() && set.all_press && set.is_level && set.is_flat;
    return told(options, is_good ? all_good : not_good,
                {[&] { return report::json(set, file, std::string(version)); },
                 [&] { return report::text(set, bench, options.style); },
                 [&] { return report::html(set, bench, imprint_of(options, file)); }});
  });
}

/// Faults of the prices are faults of the file.
Outcome parts(const Options& options, const std::string& file, const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    std::vector<Diagnostic> faults;
    const auto prices = bench::read_prices(*parsed.document, faults);
    if (any_error(faults)) return wrong(file, faults, "nothing was added up.");
    const decide::PartsList list = decide::parts_list(bench, tables);
    std::optional<decide::Costs> costs;
    if (prices) costs = decide::costs(list, *prices);
    return told(options, all_good,
                {[&] { return report::json(list, costs, file, std::string(version)); },
                 [&] { return report::text(list, costs, bench, options.style); },
                 [&] { return report::html(list, costs, bench, imprint_of(options, file)); }});
  });
}

/// Faults of the readings are faults of the file.
Outcome prove(const Options& options, const std::string& file, const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    std::vector<Diagnostic> faults;
    const auto readings = bench::read_readings(*parsed.document, tables, faults);
    if (any_error(faults)) return wrong(file, faults, "nothing was learned.");
    const decide::ProvingPlan plan = decide::prove(bench, readings, tables, options.work);
    return told(options, plan.is_sound() ? all_good : not_good,
                {[&] { return report::json(plan, file, std::string(version)); },
                 [&] { return report::text(plan, bench, options.style); },
                 [&] { return report::html(plan, bench, imprint_of(options, file)); }});
  });
}

/// Good when there is an answer, be it good or bad, and no reading contradicts. Faults of the
/// readings are faults of the file.
Outcome odds(const Options& options, const std::string& file, const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    std::vector<Diagnostic> faults;
    const auto readings = bench::read_readings(*parsed.document, tables, faults);
    if (any_error(faults)) return wrong(file, faults, "nothing was drawn.");
    constexpr std::size_t drawn = 10000;
    const decide::Odds found =
        decide::odds(bench, readings, tables, options.work, drawn, options.seed);
    const bool is_good =
        found.why_none.empty() && found.complete && (!found.readings || found.readings->agree);
    return told(options, is_good ? all_good : not_good,
                {[&] { return report::json(found, file, std::string(version)); },
                 [&] { return report::text(found, bench, options.style); },
                 [&] { return report::html(found, bench, imprint_of(options, file)); }});
  });
}

/// The machine that is asked for, or what is wrong with the asking.
std::variant<std::size_t, Outcome> machine_of(const bench::Bench& bench, const std::string& name,
                                              const std::string& file) {
  if (const auto found = decide::machine_on_top(bench, name)) return *found;
  std::vector<std::string> names;
  std::string list;
  for (const bench::Machine& machine : bench.machines) {
    names.push_back(machine.name);
    list += (list.empty() ? "" : ", ") + machine.name;
  }
  if (name.empty()) {
    return Outcome{"", file + ": no machine stands on the top; give it one under 'machines'\n",
                   wrong_file};
  }
  const std::string near = quantity::nearest(name, names);
  return Outcome{"",
                 fmt::format("{}: there is no machine '{}'{}\nIts machines: {}\n", file, name,
                             near.empty() ? "." : "; did you mean '" + near + "'?",
                             list.empty() ? "none" : list),
                 wrong_file};
}

Outcome place(const Options& options, const std::string& file, const std::string& text) {
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    const auto machine = machine_of(bench, options.machine, file);
    if (const auto* wrong = std::get_if<Outcome>(&machine)) return *wrong;
    const decide::PlacePlan plan =
        decide::place(bench, std::get<std::size_t>(machine), tables, options.work);
    const bool is_planned = plan.none.empty() && plan.complete;
    return told(options, is_planned ? all_good : not_good,
                {[&] { return report::json(plan, file, std::string(version)); },
                 [&] { return report::text(plan, bench.units, options.style); },
                 [&] { return report::html(plan, bench, imprint_of(options, file)); }});
  });
}

Outcome write_model(const Options& options, const std::string& file, const std::string& text) {
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    model::Assumptions assumptions;
    assumptions.bound = options.bound;
    const model::Idealisation idealisation = model::idealise(bench, tables, assumptions);
    if (idealisation.model) return Outcome{report::frame_case_text(*idealisation.model), "", 0};
    std::string why;
    for (const std::string& fault : idealisation.faults) why += file + ": " + fault + "\n";
    return Outcome{"", why, not_good};
  });
}

Outcome solve(const Options& options, const std::string& file, const std::string& text) {
  const document::Reading parsed = document::parse(file, text);
  if (!parsed.document) return wrong(file, parsed.diagnostics, "nothing was solved.");
  if (!has_key(*parsed.document, "frame_case")) {
    return {"",
            fmt::format("{}: this is no frame case: it has no line 'frame_case: 1'. If it is a "
                        "bench, write: standtrue check {}\n",
                        file, file),
            wrong_file};
  }
  const model::FrameCaseReading reading = model::read_frame_case(*parsed.document);
  const std::vector<Diagnostic> diagnostics = together(parsed.diagnostics, reading.diagnostics);
  if (!reading.frame_case || any_error(diagnostics)) {
    return wrong(file, diagnostics, "nothing was solved.");
  }
  const decide::CaseAnswers answers = decide::solve_case(*reading.frame_case);
  // A loading that is refused is a fault of the frame, unless the case expects just that.
  const bool is_checked = !reading.frame_case->expectations.empty();
  const bool is_solved =
      std::all_of(answers.loadings.begin(), answers.loadings.end(),
                  [](const decide::SolvedLoading& l) { return l.state.has_value(); });
  const bool is_good = is_checked ? answers.all_met() : is_solved;
  return {report::text(*reading.frame_case, answers, options.style), texts_of(diagnostics),
          is_good ? all_good : not_good};
}

Outcome list_tables(const Options& options) {
  const reference::Tables tables = reference::load_tables();
  const std::vector<std::string> groups = report::table_groups(tables);
  const bool is_known = options.group.empty() ||
                        std::find(groups.begin(), groups.end(), options.group) != groups.end();
  if (is_known) return {report::tables_text(tables, options.group, options.style), "", all_good};
  std::string known;
  for (const std::string& group : groups) known += (known.empty() ? "" : ", ") + group;
  const std::string near = quantity::nearest(options.group, groups);
  return {"",
          fmt::format("standtrue tables: there is no group '{}'{}\nThe groups: {}\n", options.group,
                      near.empty() ? "." : "; did you mean '" + near + "'?", known),
          wrong_file};
}

/// Runs it, and owns up to a bug of ours.
Outcome guarded(const std::function<Outcome()>& go) {
  try {
    return go();
  } catch (const std::exception& fault) {
    return {"",
            fmt::format("this is a fault of standtrue: {}\n"
                        "Your file is not to blame. Please report it together with the file.\n",
                        fault.what()),
            our_fault};
  }
}

}  // namespace

int exit_code(const decide::Assessment& assessment, bool strict) {
  using check::Judgement;
  using check::Kind;
  const bool is_answered = assessment.verdict != decide::Verdict::not_judged &&
                           assessment.verdict != decide::Verdict::do_not_load &&
                           !assessment.findings.empty();
  const auto stands_in_the_way = [strict](const check::Finding& f) {
    const bool counts = f.kind == Kind::safety || (strict && f.kind == Kind::service);
    return counts && f.judgement != Judgement::satisfied &&
           f.judgement != Judgement::outside_this_tool;
  };
  const bool is_held_up =
      std::any_of(assessment.findings.begin(), assessment.findings.end(), stands_in_the_way);
  return is_answered && !is_held_up ? all_good : not_good;
}

Outcome run(Command command, const Options& options, const std::string& file,
            const std::string& text) {
  return guarded([&]() -> Outcome {
    switch (command) {
      case Command::check:
        return check(options, file, text);
      case Command::ply:
        return compare(decide::ply, options, file, text);
      case Command::brace:
        return compare(decide::brace, options, file, text);
      case Command::improve:
        return compare(decide::improve, options, file, text);
      case Command::variants:
        return compare_variants(options, file, text);
      case Command::level:
        return level(options, file, text);
      case Command::parts:
        return parts(options, file, text);
      case Command::prove:
        return prove(options, file, text);
      case Command::odds:
        return odds(options, file, text);
      case Command::draw:
        return draw(options, file, text);
      case Command::place:
        return place(options, file, text);
      case Command::solve:
        return solve(options, file, text);
      case Command::model:
        return write_model(options, file, text);
      case Command::tables:
        return list_tables(options);
    }
    return {};
  });
}

Outcome verification(const std::vector<File>& cases) {
  return guarded([&]() -> Outcome {
    std::vector<decide::NamedCase> named;
    Outcome outcome;
    for (const File& file : cases) {
      const document::Reading parsed = document::parse(file.name, file.text);
      outcome.err += texts_of(parsed.diagnostics);
      if (!parsed.document) continue;
      model::FrameCaseReading reading = model::read_frame_case(*parsed.document);
      outcome.err += texts_of(reading.diagnostics);
      if (reading.frame_case) named.push_back({file.name, std::move(*reading.frame_case)});
    }
    outcome.out = decide::verification_table(named);
    if (named.size() < cases.size()) outcome.code = wrong_file;
    return outcome;
  });
}

}  // namespace standtrue::app
