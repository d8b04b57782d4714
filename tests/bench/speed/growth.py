"""How times grow with the number of unknowns: exponents, and a drawing of them."""

import math

families = {"finer": "the first example on finer meshes", "longer": "more bays of 1.1 m"}
# What is timed, by which unknowns it goes, and how it is drawn.
lines = (("assess", "whole", "whole check", "#222222"), ("solve_500", "frame", "500 right-hand sides", "#1d5f8a"),
         ("factor", "frame", "factor", "#a03c28"))


def size_of(given):
    family, size = given.split("/")
    return f"{size} mm mesh" if family == "finer" else f"{1.1 * int(size):.1f} m"


def points(timed, function, family, unknowns):
    return sorted((found.entry[unknowns], found.ms) for (name, given), found in timed.items()
                  if name == function and given.startswith(family + "/"))


def exponent(found):
    """Slope of the straight line through the logarithms, by least squares."""
    x, y = [math.log(n) for n, _ in found], [math.log(ms) for _, ms in found]
    mean_x, mean_y = sum(x) / len(x), sum(y) / len(y)
    return (sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y)) /
            sum((a - mean_x) ** 2 for a in x))


class Panel:
    """Logarithmic axes."""

    def __init__(self, left, title, x_range, y_range):
        self.left, self.title, self.x_range, self.y_range = left, title, x_range, y_range
        self.width, self.top, self.height = 300, 50, 300

    def at(self, n, ms):
        part = [math.log(value / low) / math.log(high / low)
                for value, (low, high) in ((n, self.x_range), (ms, self.y_range))]
        return self.left + part[0] * self.width, self.top + (1.0 - part[1]) * self.height

    def axes(self):
        (x0, x1), (y0, y1) = self.x_range, self.y_range
        bottom, drawn = self.top + self.height, []
        ticks = [m * 10**k for k in range(-3, 7) for m in (1, 2, 5)]
        for n in (t for t in ticks if x0 <= t <= x1):
            x = self.at(n, y0)[0]
            drawn += [f'<path d="M{x:.1f} {self.top}V{bottom}" stroke="#dddddd"/>',
                      f'<text x="{x:.1f}" y="{bottom + 16}" text-anchor="middle">{n:g}</text>']
        for ms in (t for t in ticks if y0 <= t <= y1 and f"{t:e}".startswith("1")):
            y = self.at(x0, ms)[1]
            drawn += [f'<path d="M{self.left} {y:.1f}h{self.width}" stroke="#dddddd"/>',
                      f'<text x="{self.left - 6}" y="{y + 4:.1f}" text-anchor="end">{ms:g}</text>']
        return [*drawn, f'<text x="{self.left}" y="{self.top - 14}" font-weight="bold">{self.title}</text>',
                f'<path d="M{self.left} {self.top}v{self.height}h{self.width}" fill="none" stroke="#222222"/>',
                f'<text x="{self.left + self.width / 2}" y="{bottom + 36}" text-anchor="middle">unknowns of the frame (whole check: of all)</text>']

    def line(self, found, name, colour):
        places = [self.at(*point) for point in found]
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in places)
        dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3"/>' for x, y in places)
        x, y = places[-1]
        has_room = x < self.left + 0.6 * self.width
        label = f'x="{x + 9:.1f}" y="{y + 4:.1f}"' if has_room else f'x="{x:.1f}" y="{y - 9:.1f}" text-anchor="end"'
        return [f'<g fill="{colour}"><path d="{path}" fill="none" stroke="{colour}" stroke-width="1.5"/>{dots}'
                f'<text {label}>{name}, n^{exponent(found):.1f}</text></g>']


def around(values, room):
    return min(values) / room, max(values) * room


def drawing(timed):
    """One panel for each family, on the same axes."""
    every = {family: [(points(timed, function, family, unknowns), name, colour)
                      for function, unknowns, name, colour in lines] for family in families}
    spots = [point for drawn in every.values() for found, _, _ in drawn for point in found]
    x_range, y_range = around([n for n, _ in spots], 1.3), around([ms for _, ms in spots], 2.0)
    body = ['<rect width="760" height="410" fill="white"/>', '<text x="14" y="24">ms</text>']
    for place, (family, drawn) in enumerate(every.items()):
        panel = Panel(50 + 370 * place, families[family], x_range, y_range)
        body += panel.axes()
        for found, name, colour in drawn:
            body += panel.line(found, name, colour)
    return ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 410" font-family="sans-serif" '
            'font-size="12" fill="#222222">\n' + "\n".join(body) + "\n</svg>\n")
