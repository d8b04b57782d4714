#pragma once

#include <exception>
#include <nlohmann/json.hpp>
#include <string>
#include <tl/expected.hpp>

#include "standtrue/app/run.hpp"

/// What the browser's page asks for.
namespace standtrue::app {

struct WebRequest {
  Command command = Command::check;
  std::string command_name;
  std::string text;                 ///< of the bench file
  std::string file = "bench.yaml";  ///< to tell of in faults
  Options options;
};

/// The request, or what is wrong with it: that is a fault of the page, not of the builder's file.
[[nodiscard]] tl::expected<WebRequest, std::string> read_web_request(const std::string& json);

/// JSON, where it is an object.
[[nodiscard]] tl::expected<nlohmann::json, std::string> web_object(const std::string& json);

/// The answer that says what is wrong with the program or its page.
[[nodiscard]] std::string web_fault(const std::string& what);

/// Runs it; what is thrown becomes a fault.
template <class Go>
[[nodiscard]] std::string web_guarded(Go go) noexcept {
  try {
    return go();
  } catch (const std::exception& fault) {
    return web_fault(fault.what());
  } catch (...) {
    return web_fault("something unknown was thrown");
  }
}

}  // namespace standtrue::app
