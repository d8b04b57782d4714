#include "report/html_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/escaped.hpp"
#include "report/ink.hpp"

namespace standtrue::report {

namespace {

// Nothing may be fetched and nothing run, whatever a bench file says.
constexpr const char* policy =
    "default-src 'none'; style-src 'unsafe-inline'; img-src 'none'; base-uri 'none'; form-action "
    "'none'";

constexpr const char* layout = R"(
*{box-sizing:border-box}
body{margin:0;background:var(--wash);color:var(--ink);font:15px/1.42 "Liberation Sans",Arial,Helvetica,sans-serif}
main{max-width:1010px;margin:0 auto;padding:12px}
.sheet{background:var(--paper);border:1.5px solid var(--ink);padding:18px;margin:0 0 16px}
h1{font-size:1.35rem;line-height:1.2;margin:0}h2{font-size:1.15rem;margin:0 0 .5em;border-bottom:1.5px solid var(--ink);padding-bottom:.2em}
.first h2{font-size:1rem;border:0;padding:0;margin-top:.6em}h3{font-size:1rem;margin:1.3em 0 .4em}p{margin:.4em 0}ul,ol{margin:.3em 0;padding-left:1.4em}li{margin:.15em 0}
.title{display:grid;grid-template-columns:1fr auto;gap:10px 18px;border-bottom:1.5px solid var(--ink);padding-bottom:10px;margin-bottom:10px}
.title .says{margin:.25em 0 0;font-size:1.02rem}
.word{align-self:start;border:2.5px solid var(--ink);padding:.3em .7em;font-weight:700;font-size:1.15rem;text-align:center;max-width:15em}
.word.stop{background:var(--raddle);border-color:var(--raddle);color:var(--paper);print-color-adjust:exact;-webkit-print-color-adjust:exact}.word.wait{border-style:double;border-width:5px}
.facts{grid-column:1/-1;display:flex;flex-wrap:wrap;gap:2px 22px;margin:0;font-size:.82rem;color:var(--pale)}
.facts div{display:flex;gap:.4em}.facts dt{font-weight:700}.facts dd{margin:0;overflow-wrap:anywhere}
figure{margin:.6em 0}figure .wide svg{display:block;height:auto}
figcaption{font-size:.85rem;color:var(--pale);margin-top:.2em}
.wide{overflow-x:auto}.two{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:4px 22px}
.rod svg{display:block;width:100%;height:auto}
.numbered{list-style:none;padding:0;margin:.2em 0}.numbered li{display:grid;grid-template-columns:2.3em 1fr;gap:.3em;margin:.35em 0}
.numbered b.ring{border:1.5px solid var(--ink);border-radius:50%;width:1.65em;height:1.65em;line-height:1.5em;text-align:center;font-size:.9rem}
.do{display:block}.do b{color:var(--chalk)}
.cautions{border-top:1px solid var(--ink);margin-top:.6em;padding-top:.3em;font-size:.88rem}
table{border-collapse:collapse;font-size:.82rem;width:100%}th,td{text-align:left;vertical-align:top;padding:.2em .5em;border-bottom:1px solid var(--pale)}
thead th{border-bottom:1.5px solid var(--ink)}tbody th{font-weight:400}th.n,td.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
dl{display:grid;grid-template-columns:max-content minmax(0,1fr);gap:0 .9em;margin:.3em 0 .9em;font-size:.84rem}dl.facts{display:flex}dt{color:var(--pale);grid-column:1}dd{margin:0;grid-column:2;overflow-wrap:anywhere}
pre{overflow-x:auto;font-size:.8rem;line-height:1.25}p,li,h1,h2,h3,td,th{overflow-wrap:anywhere}td,th{overflow-wrap:break-word}
.engineer{font-size:.9rem}.further{margin-left:1.6em}.card h2{margin-top:1em}
@media(max-width:700px){.two{grid-template-columns:minmax(0,1fr)}.title{grid-template-columns:1fr}.word{justify-self:start}.sheet{padding:12px}main{padding:6px}.rod{overflow-x:auto}.rod svg{min-width:430px}}
@page{size:A4;margin:11mm 12mm 13mm;@bottom-left{content:"A planning aid, not a certificate";font:7.5pt Arial,sans-serif;color:#555}@bottom-right{content:"page " counter(page) " of " counter(pages);font:7.5pt Arial,sans-serif;color:#555}}
@media print{body{background:none;font-size:8.7pt;line-height:1.25}main{max-width:none;padding:0}.sheet{background:none;border:0;padding:0;margin:0;break-before:page}.sheet:first-child{break-before:auto}
figure,tr,.numbered li,dl div{break-inside:avoid}h2,h3{break-after:avoid}thead{display:table-header-group}figure .wide svg{min-width:0!important}.wide{overflow:visible}
table{font-size:7.6pt}dl{font-size:8pt}pre{font-size:7.5pt;white-space:pre-wrap}.first figure{margin:0}.first{font-size:7.8pt;line-height:1.19}.first .numbered li{margin:.1em 0}.first p{margin:.2em 0}.first h2{margin:.3em 0;font-size:10pt}.first .numbered li{margin:.2em 0}.title{padding-bottom:4px;margin-bottom:4px}.facts{font-size:7.6pt}.first .says{font-size:9pt}figcaption{font-size:7.6pt}.cautions{margin-top:.3em}.cautions ul{margin:0}.cautions p{margin:.2em 0}.card{font-size:7.6pt;line-height:1.2}.card dl,.card table{font-size:6.9pt;margin:.1em 0 .2em;line-height:1.15}.card pre{margin:.3em 0}.card p,.card li{margin:.15em 0}.card h2{font-size:9.5pt;margin:.5em 0 .2em}.card figure{margin:.2em 0}.cautions{font-size:8.2pt}h1{font-size:15pt}h2{font-size:12pt}h3{font-size:10pt}.cols{columns:2;column-gap:7mm}.cols h2,.cols h3{column-span:all}.cols table{font-size:6.8pt}th,td{padding:.08em .4em}.word{font-size:13pt}}
)";

}  // namespace

std::string document(std::string_view title, std::string_view body) {
  return fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<title>{}</title>\n<style>\n{}{}</style></head>\n<body>{}<main>\n{}</main></body></html>\n",
      policy, escaped(title), ink_style(), layout, hatches(), body);
}

std::string title_block(const std::string& title, const std::string& says, const std::string& word,
                        const std::string& planned, const Imprint& imprint,
                        const char* word_class) {
  std::string facts;
  const auto fact = [&](const char* name, const std::string& value) {
    if (value.empty()) return;
    facts += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", name, escaped(value));
  };
  fact("planned load", planned);
  fact("bench file", imprint.file.substr(imprint.file.find_last_of('/') + 1));
  fact("date", imprint.date);
  fact("drawn by", "standtrue " + imprint.version);
  const std::string box =
      word.empty() ? "" : fmt::format("<div class=\"word{}\">{}</div>", word_class, escaped(word));
  return fmt::format(
      "<header class=\"title\"><div><h1>{}</h1><p class=\"says\">{}</p></div>{}<dl "
      "class=\"facts\">{}</dl></header>\n",
      escaped(title), escaped(says), box, facts);
}

std::string figure(const Svg& svg, std::string_view caption) {
  const std::string words =
      caption.empty() ? "" : fmt::format("<figcaption>{}</figcaption>", escaped(caption));
  // As wide on the page as on the sheet it was laid out for; not so small that nobody can read it.
  constexpr double sheet = 186.0, least_pixels = 640.0;
  const double share = std::min(1.0, svg.width() / sheet);
  std::string drawn = svg.text();
  drawn.insert(4, fmt::format(" style=\"width:{:.0f}%;min-width:{:.0f}px\"", 100.0 * share,
                              least_pixels * share));
  return fmt::format("<figure><div class=\"wide\" tabindex=\"0\">{}</div>{}</figure>\n", drawn,
                     words);
}

}  // namespace standtrue::report
