#include "app/web_request.hpp"

#include <fmt/format.h>

#include <map>

#include "app/commands.hpp"

namespace standtrue::app {

namespace {

using Json = nlohmann::json;
using Fault = std::optional<std::string>;

/// Sets one option of a request from the value of its key.
using Setter = Fault (*)(WebRequest&, const Json&);

template <std::string Options::*member>
Fault text(WebRequest& request, const Json& value) {
  if (!value.is_string()) return "a text";
  request.options.*member = value.get<std::string>();
  return std::nullopt;
}

template <bool Options::*member>
Fault yes_no(WebRequest& request, const Json& value) {
  if (!value.is_boolean()) return "true or false";
  request.options.*member = value.get<bool>();
  return std::nullopt;
}

Fault set_command(WebRequest& request, const Json& value) {
  const std::string wanted = "one of the commands";
  if (!value.is_string()) return wanted;
  request.command_name = value.get<std::string>();
  const auto command = command_named(request.command_name);
  if (!command) return wanted;
  request.command = *command;
  return std::nullopt;
}

Fault set_text(WebRequest& request, const Json& value) {
  if (!value.is_string()) return "a text";
  request.text = value.get<std::string>();
  return std::nullopt;
}

Fault set_file(WebRequest& request, const Json& value) {
  if (!value.is_string()) return "a text";
  request.file = value.get<std::string>();
  return std::nullopt;
}

Fault set_mesh(WebRequest& request, const Json& value) {
  const auto is_fine = value.is_string() ? mesh_named(value.get<std::string>()) : std::nullopt;
  if (!is_fine) return "standard or fine";
  request.options.fine_mesh = *is_fine;
  return std::nullopt;
}

Fault set_bound(WebRequest& request, const Json& value) {
  const auto bound = value.is_string() ? bound_named(value.get<std::string>()) : std::nullopt;
  if (!bound) return "soft, mean or stiff";
  request.options.bound = *bound;
  return std::nullopt;
}

Fault set_extent(WebRequest& request, const Json& value) {
  static const std::map<std::string, Extent> extents = {
      {"whole", Extent::whole}, {"drawn", Extent::drawn}, {"first look", Extent::first_look}};
  const auto extent = extents.find(value.is_string() ? value.get<std::string>() : std::string());
  if (extent == extents.end()) return "whole, drawn or first look";
  request.options.extent = extent->second;
  return std::nullopt;
}

Fault set_seed(WebRequest& request, const Json& value) {
  if (!value.is_number_unsigned()) return "a whole number, not negative";
  request.options.seed = value.get<std::uint64_t>();
  return std::nullopt;
}

Fault set_detail(WebRequest& request, const Json& value) {
  if (!value.is_boolean()) return "true or false";
  request.options.style.detail = value.get<bool>();
  return std::nullopt;
}

Fault set_width(WebRequest& request, const Json& value) {
  const std::string wanted = fmt::format("a whole number from {} to 1000", report::least_width);
  if (!value.is_number_integer()) return wanted;
  const auto width = value.get<std::int64_t>();
  if (width < report::least_width || width > 1000) return wanted;
  request.options.style.width = static_cast<int>(width);
  return std::nullopt;
}

const std::map<std::string, Setter>& setters() {
  static const std::map<std::string, Setter> all = {{"command", set_command},
                                                    {"text", set_text},
                                                    {"file", set_file},
                                                    {"mesh", set_mesh},
                                                    {"bound", set_bound},
                                                    {"extent", set_extent},
                                                    {"seed", set_seed},
                                                    {"detail", set_detail},
                                                    {"width", set_width},
                                                    {"strict", yes_no<&Options::strict>},
                                                    {"report", yes_no<&Options::report>},
                                                    {"page", yes_no<&Options::page>},
                                                    {"picture", yes_no<&Options::with_picture>},
                                                    {"machine", text<&Options::machine>},
                                                    {"drawing", text<&Options::picture>},
                                                    {"group", text<&Options::group>},
                                                    {"date", text<&Options::date>}};
  return all;
}

}  // namespace

tl::expected<nlohmann::json, std::string> web_object(const std::string& json) {
  // Without exceptions: what can not be read is `discarded`.
  Json read = Json::parse(json, nullptr, false);
  if (!read.is_object()) return tl::unexpected(std::string("the request is no JSON object"));
  return read;
}

tl::expected<WebRequest, std::string> read_web_request(const std::string& json) {
  const auto read = web_object(json);
  if (!read) return tl::unexpected(read.error());
  if (!read->contains("command")) return tl::unexpected(std::string("the request has no command"));
  WebRequest request;
  for (const auto& [key, value] : read->items()) {
    const auto setter = setters().find(key);
    if (setter == setters().end()) {
      return tl::unexpected(fmt::format("the request has a key that is not known: '{}'", key));
    }
    if (const Fault wanted = setter->second(request, value)) {
      return tl::unexpected(fmt::format("the request's '{}' is to be {}", key, *wanted));
    }
  }
  return request;
}

}  // namespace standtrue::app
