#include <fmt/format.h>

#include "report/charts.hpp"
#include "report/escaped.hpp"
#include "report/frame_drawings.hpp"
#include "report/html_page.hpp"
#include "report/html_sheets.hpp"

namespace standtrue::report {

namespace {

constexpr double paper_width = 186.0;

class Sheets {
 public:
  void begin(const char* title) {
    end();
    title_ = title;
  }
  void draw(const char* heading, const Captioned& drawing) {
    if (*heading != '\0') body_ += fmt::format("<h3>{}</h3>\n", escaped(heading));
    body_ += figure(drawing.svg, drawing.caption);
  }
  void draw(const char* heading, const std::optional<Captioned>& drawing) {
    if (drawing) draw(heading, *drawing);
  }
  void draw(const char* heading, const std::vector<Captioned>& drawings) {
    for (std::size_t i = 0; i < drawings.size(); ++i) draw(i == 0 ? heading : "", drawings[i]);
  }
  std::string finished() {
    end();
    return std::move(all_);
  }

 private:
  /// A sheet with nothing on it is left out.
  void end() {
    if (!body_.empty()) {
      all_ += fmt::format("<section class=\"sheet\"><h2>{}</h2>\n{}</section>\n", escaped(title_),
                          body_);
    }
    body_.clear();
  }
  std::string title_, body_, all_;
};

}  // namespace

std::string drawing_sheets(const Drawn& drawn) {
  if (drawn.picture.solids.empty()) return {};
  constexpr double w = paper_width;
  Sheets sheets;
  sheets.begin("How it is built");
  sheets.draw("In the round", solid_drawing(drawn, w));
  sheets.draw("Left end", elevation_drawing(drawn, View::left_end(), "Left end", 0.62 * w));
  sheets.begin("Where a machine may stand, and what may be stored");
  if (drawn.places) {
    sheets.draw("", load_plan_drawings(*drawn.places, drawn.assessment.bench.units, w));
  }
  sheets.begin("How it gives");
  sheets.draw("Under what stands and is stored on it", loaded_drawing(drawn, w));
  sheets.draw("What the sag is made of", sag_split(drawn, w));
  sheets.draw("Twist of a bed, by winding sticks", winding_sticks(drawn, w));
  sheets.begin("How it sways");
  sheets.draw("Pushed along", pushed_drawing(drawn, true, w));
  sheets.draw("Pushed across", pushed_drawing(drawn, false, w));
  sheets.draw("Sway against the stiffness of the joints", sway_chart(drawn, w));
  sheets.begin("How it hums");
  sheets.draw("The first swings", swing_drawing(drawn, w));
  sheets.draw("Speeds against swings", speed_chart(drawn, w));
  sheets.begin("How it bends");
  sheets.draw("Timber", moment_drawing(drawn, w));
  sheets.draw("Sheets", sheet_moment_drawings(drawn, 0.8 * w));
  return sheets.finished();
}

}  // namespace standtrue::report
