#include "app/work.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace standtrue::app {

namespace {

volatile std::sig_atomic_t interrupted = 0;

void on_interrupt(int) {
  interrupted = 1;
  std::signal(SIGINT, SIG_DFL);
}

/// The first exception of any thread is thrown again when all have ended.
void on_all_cores(std::size_t n, const std::function<void(std::size_t)>& f) {
  const std::size_t cores = std::max<std::size_t>(1, std::thread::hardware_concurrency());
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex guard;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < n; i = next++) {
      try {
        f(i);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(guard);
        if (!failure) failure = std::current_exception();
        next = n;
      }
    }
  };
  std::vector<std::thread> threads;
  for (std::size_t t = 1; t < std::min(cores, n); ++t) threads.emplace_back(take_turns);
  take_turns();
  for (std::thread& thread : threads) thread.join();
  if (failure) std::rethrow_exception(failure);
}

bool tell(std::size_t done, std::size_t of) {
  static const bool listens = std::signal(SIGINT, on_interrupt) != SIG_ERR;
  static_cast<void>(listens);
  static const bool is_terminal = isatty(STDERR_FILENO) == 1;
  if (is_terminal) {
    const std::string line = done < of ? fmt::format("\r{} of {} looked at ", done, of)
                                       : std::string("\r                          \r");
    std::fputs(line.c_str(), stderr);
    std::fflush(stderr);
  }
  return interrupted == 0;
}

}  // namespace

decide::Work threaded_work() { return {on_all_cores, tell}; }

bool was_interrupted() { return interrupted != 0; }

}  // namespace standtrue::app
