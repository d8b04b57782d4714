"""A plate by Getfem's elements of the fifth degree on a graded mesh, the equations solved by SciPy."""

import getfem as gf
import numpy as np
import scipy.sparse
import scipy.sparse.linalg


def by_elements(plate, load):
    """A function of x, y: all components there."""
    (x0, x1, y0, y1), pressure = load

    def lines(length, cuts):  # finer towards the edges, where shear lives in layers
        even = 0.5 * (1.0 - np.cos(np.pi * np.linspace(0.0, 1.0, 8)))
        return np.unique(np.round(np.concatenate([length * even, cuts]), 12))

    mesh = gf.Mesh("cartesian", lines(plate.a, [x0, x1]), lines(plate.b, [y0, y1]))
    field = gf.MeshFem(mesh, 1)
    field.set_fem(gf.Fem("FEM_QK(2,5)"))
    rule = gf.MeshIm(mesh, gf.Integ("IM_GAUSS_PARALLELEPIPED(2,10)"))
    cells = [int(c) for c in mesh.cvid()]
    middles = [mesh.pts_from_cvid(c)[0].mean(axis=1) for c in cells]
    pressed = [c for c, (x, y) in zip(cells, middles) if x0 < x < x1 and y0 < y < y1]
    mesh.set_region(3, np.array([pressed, [-1] * len(pressed)]))
    faces = mesh.outer_faces()
    across = abs(mesh.normal_of_faces(faces)[0]) > 0.5
    mesh.set_region(1, faces[:, across])
    mesh.set_region(2, faces[:, ~across])

    model = gf.Model("real")
    for name in ("w", "f", "g"):
        model.add_fem_variable(name, field)
    for name in ("D_11", "D_12", "D_22", "D_66", "S_x", "S_y"):
        model.add_initialized_data(name, [getattr(plate, name)])
    model.add_initialized_data("pressure", [pressure])
    model.add_linear_term(rule, """
        D_11*Grad_f(1)*Grad_Test_f(1) + D_22*Grad_g(2)*Grad_Test_g(2)
        + D_12*(Grad_f(1)*Grad_Test_g(2) + Grad_g(2)*Grad_Test_f(1))
        + D_66*(Grad_f(2) + Grad_g(1))*(Grad_Test_f(2) + Grad_Test_g(1))
        + S_x*(Grad_w(1) + f)*(Grad_Test_w(1) + Test_f)
        + S_y*(Grad_w(2) + g)*(Grad_Test_w(2) + Test_g)""".replace("\n", " "))
    model.add_source_term(rule, "pressure*Test_w", 3)
    held = [(v, edge) for v in "wfg" for edge in (1, 2)] if plate.is_clamped else [("w", 1), ("g", 1)]
    for variable, edge in held:
        model.add_Dirichlet_condition_with_simplification(variable, edge)
    model.assembly()
    K = model.tangent_matrix()
    K.to_csc()
    starts, rows = K.csc_ind()
    A = scipy.sparse.csc_matrix((K.csc_val(), rows, starts), shape=K.size())
    model.set("to variables", scipy.sparse.linalg.splu(A).solve(model.rhs()))

    def at(x, y):
        place = np.array([[x], [y]])
        names = [part for v in "wfg" for part in (v, f"Grad_{v}(1)", f"Grad_{v}(2)")]
        return plate.forces(*(float(np.ravel(model.interpolation(n, place, mesh))[0]) for n in names))

    return at
