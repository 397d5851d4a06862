// From the JSON of a record to its struct. The first member that is not of its kind is told, with
// its name; what is not there stays empty; names that were not asked for are left to others.
#pragma once

#include <cmath>
#include <string_view>
#include <vector>

#include "engine/book/fields.h"
#include "engine/book/json.h"
#include "lang/syntax/signs.h"

namespace acre::engine {

class RecordReader {
  public:
    RecordReader(const Json& object, std::string where, std::string& fault)
        : object_(object),
          where_(std::move(where)),
          fault_(fault) {}

    const std::vector<std::string_view>& asked_for() const { return asked_; }

    void operator()(const char* name, std::string& to) {
        if (const Json* found = member(name, &Json::is_string, "text"))
            to = found->get<std::string>();
    }
    void operator()(const char* name, double& to) {
        if (const Json* found = member(name, &Json::is_number, "a number"))
            to = found->get<double>();
    }
    template <class T> void operator()(const char* name, std::map<std::string, T>& to) {
        if (const Json* found = member(name, &Json::is_object, "an object"))
            for (const auto& [key, value] : found->items())
                read(value, path(name), to[key]);
    }
    template <class T> void operator()(const char* name, std::vector<T>& to) {
        if (const Json* found = member(name, &Json::is_array, "a list"))
            for (const Json& one : *found)
                read(one, path(name), to.emplace_back());
    }
    void maybe(const char* name, std::optional<std::vector<std::string>>& to) {
        if (object_.contains(name))
            (*this)(name, to.emplace());
        asked_.push_back(name);
    }
    void cents(const char* name, std::int64_t& to) { // doubles count so far
        whole(name, to, -9e15, 9e15, "an amount in cents");
    }
    void count(const char* name, std::int64_t& to) { whole(name, to, 0, 1e9, "a count"); }
    template <class T> void object(const char* name, T& to) {
        if (const Json* found = member(name, &Json::is_object, "an object"))
            read(*found, path(name), to);
    }
    template <class Inside> void inside(const char* name, Inside inside) {
        if (const Json* found = member(name, &Json::is_object, "an object")) {
            RecordReader group(*found, path(name), fault_);
            inside(group);
        }
    }
    void named(const char* name, std::vector<std::pair<std::string, std::string>>& to) {
        if (const Json* found = member(name, &Json::is_array, "a list"))
            for (const Json& one : *found) {
                auto& [word, text] = to.emplace_back();
                if (!one.is_object())
                    return fail("one of `" + path(name) + "`", "an object");
                RecordReader entry(one, path(name), fault_);
                entry("name", word);
                entry("text", text);
            }
    }
    void money(const char* name, lang::Currency& to) {
        const Json* found = member(name, &Json::is_object, "an object");
        if (found == nullptr)
            return;
        for (const char* part : {"code", "sign", "step"})
            if (!found->contains(part) && fault_.empty())
                fault_ = "`" + path(name) + "` has no `" + part + "`";
        RecordReader group(*found, path(name), fault_);
        lang::Currency read;
        group("code", read.code);
        group("sign", read.sign);
        group.whole("step", read.step, 1, 1e8, "a step of money");
        if (!lang::is_money_code(read.code))
            fail("`" + path(name) + ".code`", "a code of money");
        if (!lang::may_be_sign_of_money(read.sign))
            fail("`" + path(name) + ".sign`", "a sign of money");
        if (fault_.empty())
            to = read;
    }

  private:
    const Json& object_;
    std::string where_;
    std::string& fault_;
    std::vector<std::string_view> asked_;

    std::string path(const char* name) const { return where_.empty() ? name : where_ + "." + name; }
    void fail(const std::string& what, const std::string& kind) {
        if (fault_.empty())
            fault_ = what + " is not " + kind;
    }
    const Json* member(const char* name, bool (Json::*is)() const noexcept, const char* kind) {
        asked_.push_back(name);
        const auto found = object_.find(name);
        if (found == object_.end())
            return nullptr;
        if (((*found).*is)())
            return &*found;
        fail("`" + path(name) + "`", kind);
        return nullptr;
    }
    void whole(const char* name, std::int64_t& to, double least, double most, const char* kind) {
        asked_.push_back(name);
        const auto found = object_.find(name);
        if (found == object_.end())
            return;
        if (is_whole(*found, least, most))
            to = found->get<std::int64_t>();
        else
            fail("`" + path(name) + "`", kind);
    }
    static bool is_whole(const Json& value, double least, double most) {
        return value.is_number_integer() && value.get<double>() >= least &&
               value.get<double>() <= most;
    }

    // One of a list.
    void read(const Json& value, const std::string& where, std::string& to) {
        if (value.is_string())
            to = value.get<std::string>();
        else
            fail("one of `" + where + "`", "text");
    }
    void read(const Json& value, const std::string& where, std::int64_t& to) {
        if (is_whole(value, 0, 1e9))
            to = value.get<std::int64_t>();
        else
            fail("one of `" + where + "`", "a count of quotes");
    }
    void read(const Json& value, const std::string& where,
              std::pair<std::string, std::string>& to) {
        if (value.is_array() && value.size() == 2 && value[0].is_string() && value[1].is_string())
            to = {value[0].get<std::string>(), value[1].get<std::string>()};
        else
            fail("one of `" + where + "`", "a name and a value");
    }
    template <class T> void read(const Json& value, const std::string& where, T& to) {
        if (!value.is_object())
            return fail("one of `" + where + "`", "an object");
        RecordReader entry(value, where, fault_);
        fields(entry, to);
    }
};

} // namespace acre::engine
