// From the struct of a record to its JSON. What is empty is left out, and so is a number that is
// none; every other number stands there.
#pragma once

#include <cmath>

#include "engine/book/fields.h"
#include "engine/book/json.h"

namespace acre::engine {

class RecordWriter {
  public:
    Json json = Json::object();

    void operator()(const char* name, const std::string& text) {
        if (!text.empty())
            json[name] = text;
    }
    void operator()(const char* name, double value) {
        if (std::isfinite(value))
            json[name] = value;
    }
    template <class T> void operator()(const char* name, const std::map<std::string, T>& all) {
        for (const auto& [key, value] : all)
            json[name][key] = value;
    }
    template <class T> void operator()(const char* name, const std::vector<T>& all) {
        for (const T& one : all)
            json[name].push_back(value_of(one));
    }
    void maybe(const char* name, const std::optional<std::vector<std::string>>& all) {
        if (all)
            (*this)(name, *all);
    }
    void cents(const char* name, std::int64_t value) { json[name] = value; }
    void count(const char* name, std::int64_t value) {
        if (value != 0)
            json[name] = value;
    }
    template <class T> void object(const char* name, const T& value) {
        if (Json object = value_of(value); !object.empty())
            json[name] = std::move(object);
    }
    template <class Inside> void inside(const char* name, Inside inside) {
        RecordWriter group;
        inside(group);
        if (!group.json.empty())
            json[name] = std::move(group.json);
    }
    void named(const char* name, const std::vector<std::pair<std::string, std::string>>& words) {
        for (const auto& [word, text] : words)
            json[name].push_back({{"name", word}, {"text", text}});
    }
    void money(const char* name, const lang::Currency& money) {
        if (money != lang::Currency{}) // the dollar
            json[name] = {{"code", money.code}, {"sign", money.sign}, {"step", money.step}};
    }

  private:
    static Json value_of(const std::string& text) { return text; }
    static Json value_of(const std::pair<std::string, std::string>& pair) {
        return Json::array({pair.first, pair.second});
    }
    template <class T> static Json value_of(T value) {
        RecordWriter writer;
        fields(writer, value);
        return std::move(writer.json);
    }
};

// The members of a quote that follow from its texts.
Json priced_json(QuoteRecord quote);

} // namespace acre::engine
