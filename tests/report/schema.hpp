#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

namespace standtrue::test {

/// As much of a JSON schema as ours uses: type, const, enum, required, properties,
/// additionalProperties, items, $ref.
class Schema {
 public:
  explicit Schema(nlohmann::json root) : root_(std::move(root)) {}
  void check(const nlohmann::json& value, const std::string& path) const {
    check(value, root_, path);
  }

 private:
  static bool is(const nlohmann::json& value, const std::string& type) {
    if (type == "object") return value.is_object();
    if (type == "array") return value.is_array();
    if (type == "string") return value.is_string();
    if (type == "number") return value.is_number();
    if (type == "boolean") return value.is_boolean();
    return type == "null" && value.is_null();
  }
  static bool is_one_of(const nlohmann::json& value, const nlohmann::json& types) {
    if (types.is_string()) return is(value, types.get<std::string>());
    for (const nlohmann::json& type : types) {
      if (is(value, type.get<std::string>())) return true;
    }
    return false;
  }
  void check(const nlohmann::json& value, const nlohmann::json& schema,
             const std::string& path) const {
    CAPTURE(path);
    if (schema.contains("$ref")) {
      const std::string ref = schema["$ref"].get<std::string>();
      check(value, root_.at(nlohmann::json::json_pointer(ref.substr(1))), path);
    }
    if (schema.contains("type")) CHECK(is_one_of(value, schema["type"]));
    if (schema.contains("const")) CHECK(value == schema["const"]);
    if (schema.contains("enum")) {
      CHECK(std::count(schema["enum"].begin(), schema["enum"].end(), value) == 1);
    }
    if (value.is_array() && schema.contains("items")) {
      for (std::size_t i = 0; i < value.size(); ++i) {
        check(value[i], schema["items"], path + "[" + std::to_string(i) + "]");
      }
    }
    if (value.is_object()) check_object(value, schema, path);
  }
  void check_object(const nlohmann::json& value, const nlohmann::json& schema,
                    const std::string& path) const {
    for (const nlohmann::json& key : schema.value("required", nlohmann::json::array())) {
      CHECK_MESSAGE(value.contains(key.get<std::string>()), path << "." << key);
    }
    for (auto it = value.begin(); it != value.end(); ++it) {
      const std::string& key = it.key();
      const nlohmann::json& item = *it;
      if (schema.contains("properties") && schema["properties"].contains(key)) {
        check(item, schema["properties"][key], path + "." + key);
      } else if (schema.contains("additionalProperties")) {
        check(item, schema["additionalProperties"], path + "." + key);
      } else if (schema.contains("properties")) {
        CHECK_MESSAGE(false, path << "." << key << " is not in the schema");
      }
    }
  }

  nlohmann::json root_;
};

}  // namespace standtrue::test
