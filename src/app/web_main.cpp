// What a page calls. Texts are UTF-8 that ends with a zero; an answer is good until the next call.
#include <string>

#include "standtrue/app/web.hpp"

namespace {

std::string last_answer;
standtrue::app::WebMoving moving;
int (*progress)(double done, double of) = nullptr;

/// One core alone; how far it is goes to the page.
standtrue::decide::Work told_work() {
  standtrue::decide::Work work = standtrue::decide::Work::plain();
  work.keep_going = [](std::size_t done, std::size_t of) {
    return !progress || progress(static_cast<double>(done), static_cast<double>(of)) != 0;
  };
  return work;
}

const char* kept(std::string answer) {
  last_answer = std::move(answer);
  return last_answer.c_str();
}

}  // namespace

extern "C" {

/// `f(done, of)` is called during long work and says with 0 that it is to stop; null: nobody is.
void standtrue_on_progress(int (*f)(double done, double of)) { progress = f; }

const char* standtrue_answer(const char* request) {
  return kept(standtrue::app::web_answer(request, told_work()));
}

const char* standtrue_open_moving(const char* request) {
  return kept(moving.open(request, told_work()));
}

const char* standtrue_moved(unsigned place) { return kept(moving.at(place)); }
}
