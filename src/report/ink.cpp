#include "report/ink.hpp"

#include <fmt/format.h>

namespace standtrue::report {

namespace {

constexpr const char* light =
    "--paper:#fcfbf7;--ink:#26282a;--pale:#5f605c;--chalk:#2b5b88;--raddle:#96361e;--wash:#f0ede4;-"
    "-noroom:#dedacd;";
constexpr const char* dark =
    "--paper:#1b1d1f;--ink:#e8e4da;--pale:#aaa89f;--chalk:#93c0e8;--raddle:#f0a189;--wash:#26292b;-"
    "-noroom:#3b3f42;";

// Line weights in mm on the sheet: 0.5 for what is cut or outlined, 0.25, 0.13.
constexpr const char* classes = R"(
svg text{font-family:"Liberation Sans",Arial,Helvetica,sans-serif;font-size:2.6px;fill:var(--ink)}
svg .fig{font-size:2.5px}svg .small{font-size:2.2px;fill:var(--pale)}svg .num{font-size:2.9px;font-weight:700}
svg .name{font-size:2.6px;font-weight:700}svg .blue{fill:var(--chalk)}svg .red{fill:var(--raddle)}
svg line,svg path,svg rect,svg circle{fill:none;stroke:var(--ink);stroke-width:.25;stroke-linejoin:round;stroke-linecap:round}
svg .seen{stroke-width:.32}svg .thick{stroke-width:.5}svg .hidden{stroke-width:.13;stroke-dasharray:1.1 .8;stroke:var(--pale)}
svg .thin{stroke-width:.13}svg .dim{stroke-width:.13;stroke:var(--pale)}svg .slash{stroke-width:.35}
svg .floor{stroke-width:.5}svg .phantom{stroke-width:.2;stroke-dasharray:3 .7 .6 .7}
svg .centre{stroke-width:.13;stroke-dasharray:2.4 .6 .5 .6;stroke:var(--pale)}
svg .string{stroke:var(--chalk);stroke-width:.3}svg .sagged{stroke:var(--chalk);stroke-width:.5;stroke-dasharray:1.6 .7}
svg .bob{stroke:var(--chalk);stroke-width:.25}svg .bobweight{fill:var(--chalk);stroke:none}
svg .knife{stroke:var(--chalk);stroke-width:.45}svg .smear{fill:url(#pencil);stroke:var(--ink);stroke-width:.12}
svg .over{fill:url(#raddled);stroke:var(--raddle);stroke-width:.25}
svg .ring{fill:var(--paper);stroke-width:.35}svg .dot{fill:var(--ink);stroke:none}svg .lead{stroke-width:.16}
svg .care{fill:url(#care);stroke:none}svg .unseen{fill:url(#unseen);stroke:none}svg .barred{fill:url(#barred);stroke:none}
svg .paper{fill:var(--paper);stroke:none}svg .wash{fill:var(--wash);stroke:none}
svg .noroom{fill:var(--noroom);stroke:none}svg .off{stroke:var(--raddle);stroke-width:.3}svg .moved{stroke:var(--chalk);stroke-width:.45}
svg .rest{stroke:var(--pale);stroke-width:.13}svg .moment{fill:url(#pencil);stroke:var(--ink);stroke-width:.2}
svg .contour{stroke-width:.2}svg .contour-less{stroke-width:.2;stroke-dasharray:1.2 .7}
svg .band{fill:var(--wash);stroke:none}svg .mean{stroke-width:.2;stroke-dasharray:.5 .7}
)";

constexpr const char* patterns = R"ink(<defs>
<pattern id="pencil" width="1.1" height="1.1" patternUnits="userSpaceOnUse" patternTransform="rotate(58)"><line x1=".3" y1="0" x2=".3" y2="1.1" style="stroke:var(--ink);stroke-width:.34"/></pattern>
<pattern id="raddled" width=".9" height=".9" patternUnits="userSpaceOnUse" patternTransform="rotate(58)"><line x1=".3" y1="0" x2=".3" y2=".9" style="stroke:var(--raddle);stroke-width:.45"/></pattern>
<pattern id="care" width="2.2" height="2.2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1=".5" y1="0" x2=".5" y2="2.2" style="stroke:var(--ink);stroke-width:.16"/></pattern>
<pattern id="unseen" width="1.6" height="1.6" patternUnits="userSpaceOnUse"><circle cx=".8" cy=".8" r=".3" style="fill:var(--pale);stroke:none"/></pattern>
<pattern id="barred" width="1.3" height="1.3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M.4 0V1.3M0 .4H1.3" style="stroke:var(--raddle);stroke-width:.22"/></pattern>
</defs>
)ink";

}  // namespace

std::string ink_style() {
  return std::string(":root{") + light + "color-scheme:light dark}\n" +
         "@media (prefers-color-scheme:dark){:root{" + dark + "}}\n" + "@media print{:root{" +
         light + "}}\n" + classes;
}

std::string hatches() {
  return std::string(
             "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\" "
             "focusable=\"false\">") +
         patterns + "</svg>\n";
}

std::string standalone(const Svg& svg) {
  std::string text = svg.text();
  const std::size_t inside = text.find(">\n") + 2;
  const std::string paper = fmt::format("<rect class=\"paper\" width=\"{:g}\" height=\"{:g}\"/>\n",
                                        svg.width(), svg.height());
  text.insert(inside, "<style>" + ink_style() + "</style>\n" + patterns + paper);
  return text;
}

}  // namespace standtrue::report
