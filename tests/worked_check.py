#!/usr/bin/env python3
"""Repeats five findings of examples/boiler-plinth.yaml from sizes, loads and clauses alone.

    python3 tests/worked_check.py PROGRAM [--write docs/worked-check.md]

Nothing of the program is used but its answers, which are compared within 1 %. Every figure below is
typed in from the example, from the reference tables or from the clause named beside it.
"""

import json
import math
import subprocess
import sys
from pathlib import Path

here = Path(__file__).resolve().parent.parent
example = here / "examples" / "boiler-plinth.yaml"
g = 9.80665

# --- the bench, m and kg --------------------------------------------------------------------------
top_x, top_y, surface = 2.140, 0.800, 0.900
over = 0.025                                   # overhang (assumed)
b, h = 0.045, 0.095                            # rails and posts, C24
t_top, t_shelf = 0.021, 0.015                  # spruce plywood
frame_x, frame_y = top_x - 2 * over, top_y - 2 * over
rho_c24, rho_ply = 420.0, 460.0                # EN 338:2016, Table 1; Swedish P30
post_h = surface - t_top - 0.025               # feet 25 mm out (assumed)
long_rail = frame_x - 2 * h                    # posts with their wide face along
short_rail = frame_y - 2 * b
between = frame_y - b                          # axes of front and back rail
rise = (surface - t_top - h / 2) - (0.150 + h / 2)  # lower to top rail axis

drill, grinder = 32.0, 20.0
drill_y, grinder_y = 0.350 - over, 0.190 - over     # from the posts' outer corner
stored_top, stored_shelf = 30.0, 40.0 * (frame_x * frame_y - 4 * b * h)

lines = []


def say(text=""):
    lines.append(text)


def effective_width(a, E_s, E_t, G_v):
    """Timoshenko & Woinowsky-Krieger, long plate on two supports, point load in the middle."""
    s = 1.0517997902646451                     # sum of 1/m^3 over odd m = 7 zeta(3)/8
    return (a * math.pi**3 * math.sqrt(2 * E_s) * math.sqrt(2 * G_v + math.sqrt(E_s * E_t))
            / (48 * E_s * s))


def sheet_bay_bending():
    """A person of 1 kN in the middle of the top, 1.5 times, on 100 mm, with what lies there."""
    a, P, patch = between, 1.5 * 1000.0, 0.100
    width = effective_width(a, 4600e6, 8700e6, 500e6)   # across the grain; the weaker published of 12 and 24 mm
    q = 1.35 * rho_ply * t_top * g + 1.5 * stored_top * g / (top_x * top_y)
    M = P * (a / 4 - patch / 8) / width + q * a**2 / 8
    sigma = 6 * M / t_top**2
    say(f"a = {a*1e3:.0f} mm between the rails, width of the strip b = {width*1e3:.0f} mm; "
        f"q = 1.35 x {rho_ply*t_top*g:.0f} + 1.5 x {stored_top*g/(top_x*top_y):.0f} = {q:.0f} N/m2; "
        f"m = P (a/4 - c/8)/b + q a^2/8 = {M:.0f} N m/m; sigma = 6 m/t^2 = {sigma/1e6:.2f} N/mm2.")
    return sigma


def sag_of_shelf():
    """5 q a^4 / 384 E I + q a^2 / 8 G A_s of a strip 1 m wide, across its face grain."""
    a = between
    q = rho_ply * t_shelf * g + 40.0 * g
    E, G_r = 4600e6, 50e6
    w = 5 * q * a**4 / (384 * E * t_shelf**3 / 12) + q * a**2 / (8 * G_r * t_shelf * 5 / 6)
    say(f"q = {q:.0f} N/m2, E = 4600 N/mm2, G_r = 50 N/mm2, A_s = 5/6 t: w = {w*1e3:.3f} mm.")
    return w


def weights():
    """(kg, y) of everything that is planned on the bench; y from the posts' outer front."""
    middle = frame_y / 2
    timber = rho_c24 * b * h
    rails = 2 * 2 * (long_rail + short_rail)
    # Upper ends stay 80 mm and half a row of bolts (2.5 d) under the post's top: M8 in the back, M6 in
    # the ends (EN 1995-1-1, Table 8.4).
    back_brace = math.hypot(frame_x - h, rise - (0.080 + 2.5 * 0.008 - h / 2))
    end_brace = math.hypot(between, rise - (0.080 + 2.5 * 0.006 - h / 2))
    stem = 4 * 7850 * math.pi * 0.009853**2 / 4 * 0.025
    return [
        (timber * (4 * post_h + rails), middle),
        (timber * back_brace, frame_y - b / 2),
        (timber * 2 * end_brace, middle),
        (stem, middle),
        (rho_ply * t_top * top_x * top_y, middle),
        (rho_ply * t_shelf * (frame_x * frame_y - 4 * b * h), middle),
        (drill, drill_y),
        (grinder, grinder_y),
        (stored_top, middle),
        (stored_shelf, middle),
    ]


def tipping():
    """0.9 G about the front feet against 1.5 x 200 N at the worktop: the holding moment."""
    held = 0.9 * sum(m * g * (y - b / 2) for m, y in weights())
    say(f"all weights {sum(m for m, _ in weights()):.1f} kg; about the line through the front feet "
        f"they hold 0.9 x {held/0.9:.0f} = {held:.0f} N m against 1.5 x 200 N x 0.9 m = 270 N m.")
    return held


def sliding():
    """Friction 0.4 of plastic feet on concrete, over the margin of 1.5."""
    W = sum(m * g for m, _ in weights())
    push = 0.4 * W / 1.5
    say(f"W = {W:.0f} N; 0.4 W / 1.5 = {push:.0f} N against a push of 200 N.")
    return push


def bending_of_front_rail():
    """Somebody stands at the front edge: a beam on end springs by slope deflection.

    Shear deformation changes the end moments of so weak springs by less than one in a thousand and
    is left out, and so is the give of the posts."""
    L, E = long_rail, 11000e6
    EI = E * b * h**3 / 12
    k = spring_of_bracket()

    def front(y):                                        # lever rule to the front rail
        return (between - (y - b / 2)) / between

    half = top_y / 2                                     # the front rail's half of the top
    q = 1.35 * rho_c24 * b * h * g + (1.35 * rho_ply * t_top * g
                                      + 1.5 * stored_top * g / (top_x * top_y)) * half * top_x / L
    loads = []                                           # (N, m from the rail's left end)
    run = 1.35 + 1.5 * 0.2                               # machine running, motor: 20 %, factor 1.5
    for mass, x, y, px, py in ((drill, 1.010 - over, drill_y, 0.180, 0.270),
                               (grinder, 0.330 - over, grinder_y, 0.150, 0.110)):
        for sx in (-0.5, 0.5):
            for sy in (-0.5, 0.5):
                loads.append((run * mass * g / 4 * front(y + sy * py), x + sx * px - h))
    loads.append((1.5 * 1000 * front(-over + 0.050), frame_x / 2 - h))
    # Fixed-end moments, then springs: M = k theta at each end.
    def fixed(P, a):
        c = L - a
        return P * a * c * c / L**2, P * a * a * c / L**2
    MA = q * L**2 / 12 + sum(fixed(P, a)[0] for P, a in loads)
    MB = q * L**2 / 12 + sum(fixed(P, a)[1] for P, a in loads)
    # (4EI/L + k) tA + 2EI/L tB = MA and its mirror image (turning inwards positive at each end)
    s, c = 4 * EI / L + k, -2 * EI / L
    det = s * s - c * c
    tA, tB = (MA * s - MB * c) / det, (MB * s - MA * c) / det
    mA, mB = k * tA, k * tB                              # hogging at the ends
    RA = q * L / 2 + sum(P * (L - a) / L for P, a in loads) + (mA - mB) / L
    def moment(x):
        return RA * x - mA - q * x * x / 2 - sum(P * (x - a) for P, a in loads if a < x)
    M = max(moment(L * i / 2000) for i in range(2001))
    k_h = min((0.150 / h) ** 0.2, 1.3)
    f_m_d = k_h * 0.9 * 24e6 / 1.3
    ratio = 6 * M / (b * h * h) / f_m_d
    say(f"q = {q:.0f} N/m, person and pads {sum(P for P, _ in loads):.0f} N, spring of the bracket "
        f"k = {k/1e3:.3f} kN m/rad: M = {M:.0f} N m, sigma = {6*M/(b*h*h)/1e6:.2f} N/mm2 against "
        f"k_h k_mod f_m,k/gamma_M = {k_h:.3f} x 0.9 x 24/1.3 = {f_m_d/1e6:.1f} N/mm2 "
        f"(EN 1995-1-1, 6.1.6, 3.2(3)): ratio {ratio:.3f}.")
    return ratio


def spring_of_bracket():
    """Plate at the corner in series with its two legs of three screws 4 x 35 (docs/decisions)."""
    EI_plate = 210000e6 * 0.038 * 0.004**3 / 12 / 0.030
    K_ax = 780 * 4**0.2 * (35 - 4)**0.4 * 1e3            # threaded all along, less the plate
    leg = 3 * K_ax * 0.0229**2
    return 1 / (1 / EI_plate + 2 / leg)


cases = [
    ("sheet-bay-bending/top", "The top under a person in mid-bay", sheet_bay_bending,
     lambda f: f["demand"]["mean"]),
    ("sag-board/shelf", "Sag of the shelf between its rails", sag_of_shelf,
     lambda f: f["demand"]["mean"]),
    ("tipping/push", "Tipping to the front under a shove", tipping, lambda f: f["limit"]),
    ("sliding/push", "Sliding under a shove", sliding, lambda f: f["limit"]),
    ("bending/front-top-rail", "The front top rail in bending", bending_of_front_rail,
     lambda f: f["ratio"]["mean"]),
]

# With sheets as strips, which a hand can follow; beside plates the strips stand as hand checks.
text = example.read_text() + "analysis: {sheets: strip}\n"
answer = json.loads(subprocess.run([sys.argv[1], "check", "-", "--json"], input=text,
                                   capture_output=True, text=True).stdout)
findings = {f["id"]: f for f in answer["findings"]}

say("# Five findings by hand")
say()
say("Of `examples/boiler-plinth.yaml`, from sizes, loads and clauses alone: `tests/worked_check.py`")
say("computes what stands here and compares it with the program's answer within 1 %. A test runs it.")
say("Sheets are taken as strips here, `analysis: {sheets: strip}`; as plates they answer in method.md.")
worst = 0.0
for key, title, by_hand, of_program in cases:
    say()
    say(f"## {title}")
    say()
    say(f"`{key}`. {by_hand.__doc__.split(chr(10))[0]}")
    say()
    mine = by_hand()
    theirs = of_program(findings[key])
    error = theirs / mine - 1
    worst = max(worst, abs(error))
    say()
    say(f"By hand {mine:.4g}, the program {theirs:.4g} (SI): {100*error:+.2f} %.")

text = "\n".join(lines) + "\n"
if "--write" in sys.argv:
    Path(sys.argv[sys.argv.index("--write") + 1]).write_text(text)
print(text)
sys.exit(0 if worst < 0.01 else 1)
