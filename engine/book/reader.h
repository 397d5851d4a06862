// From the JSON of a record to its struct. The first member that is not of its kind is told, with
// its name; what is not there stays empty; names that were not asked for are left to others.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/book/canonical_text.h"
#include "engine/book/fields.h"
#include "lang/syntax/signs.h"

namespace acre::engine {

class RecordReader {
    using Kind = JsonValue::Kind;

  public:
    // `asked`: gets the names that are asked for.
    RecordReader(const JsonValue& object, std::string& fault,
                 std::vector<std::string_view>* asked = nullptr)
        : object_(object),
          fault_(fault),
          asked_(asked) {}

    void operator()(const char* name, std::string& to) {
        if (const JsonValue* found = member(name, Kind::Text, "text"))
            to = found->text;
    }
    void operator()(const char* name, double& to) {
        if (const JsonValue* found = member(name, Kind::Number, "a number"))
            to = found->number;
    }
    template <class T> void operator()(const char* name, std::map<std::string, T>& to) {
        if (const JsonValue* found = member(name, Kind::Object, "an object"))
            for (const JsonValue& one : *found)
                read(one, name, to[std::string(one.name)]);
    }
    template <class T> void operator()(const char* name, std::vector<T>& to) {
        if (const JsonValue* found = member(name, Kind::List, "a list"))
            for (const JsonValue& one : *found)
                read(one, name, to.emplace_back());
    }
    void maybe(const char* name, std::optional<std::vector<std::string>>& to) {
        if (object_.find(name) != nullptr)
            (*this)(name, to.emplace());
        else
            ask(name);
    }
    void cents(const char* name, std::int64_t& to) { // doubles count so far
        whole(name, to, -9e15, 9e15, "an amount in cents");
    }
    void count(const char* name, std::int64_t& to) { whole(name, to, 0, 1e9, "a count"); }
    template <class T> void object(const char* name, T& to) {
        if (const JsonValue* found = member(name, Kind::Object, "an object"))
            read(*found, name, to);
    }
    template <class Inside> void inside(const char* name, Inside inside) {
        if (const JsonValue* found = member(name, Kind::Object, "an object")) {
            RecordReader group(*found, *this, name);
            inside(group);
        }
    }
    void named(const char* name, std::vector<std::pair<std::string, std::string>>& to) {
        if (const JsonValue* found = member(name, Kind::List, "a list"))
            for (const JsonValue& one : *found) {
                auto& [word, text] = to.emplace_back();
                if (!one.is(Kind::Object))
                    return fail("one of `" + path(name) + "`", "an object");
                RecordReader entry(one, *this, name);
                entry("name", word);
                entry("text", text);
            }
    }
    void money(const char* name, lang::Currency& to) {
        const JsonValue* found = member(name, Kind::Object, "an object");
        if (found == nullptr)
            return;
        for (const char* part : {"code", "sign", "step"})
            if (found->find(part) == nullptr && fault_.empty())
                fault_ = "`" + path(name) + "` has no `" + part + "`";
        RecordReader group(*found, *this, name);
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
    const JsonValue& object_;
    std::string& fault_;
    std::vector<std::string_view>* asked_ = nullptr;
    const RecordReader* outer_ = nullptr; // and what this is called there
    const char* name_ = nullptr;

    RecordReader(const JsonValue& object, const RecordReader& outer, const char* name)
        : object_(object),
          fault_(outer.fault_),
          outer_(&outer),
          name_(name) {}

    std::string path(const char* name) const { // for a fault alone
        return outer_ == nullptr ? name : outer_->path(name_) + "." + name;
    }
    void fail(const std::string& what, const std::string& kind) {
        if (fault_.empty())
            fault_ = what + " is not " + kind;
    }
    void ask(const char* name) {
        if (asked_ != nullptr)
            asked_->emplace_back(name);
    }
    const JsonValue* member(const char* name, Kind kind, const char* called) {
        ask(name);
        const JsonValue* found = object_.find(name);
        if (found == nullptr || found->is(kind))
            return found;
        fail("`" + path(name) + "`", called);
        return nullptr;
    }
    void whole(const char* name, std::int64_t& to, double least, double most, const char* kind) {
        ask(name);
        const JsonValue* found = object_.find(name);
        if (found == nullptr)
            return;
        if (is_whole(*found, least, most))
            to = static_cast<std::int64_t>(found->number);
        else
            fail("`" + path(name) + "`", kind);
    }
    static bool is_whole(const JsonValue& value, double least, double most) {
        return value.is_integer && value.number >= least && value.number <= most;
    }

    // One of a list.
    void read(const JsonValue& value, const char* name, std::string& to) {
        if (value.is(Kind::Text))
            to = value.text;
        else
            fail("one of `" + path(name) + "`", "text");
    }
    void read(const JsonValue& value, const char* name, std::int64_t& to) {
        if (is_whole(value, 0, 1e9))
            to = static_cast<std::int64_t>(value.number);
        else
            fail("one of `" + path(name) + "`", "a count of quotes");
    }
    void read(const JsonValue& value, const char* name, std::pair<std::string, std::string>& to) {
        std::vector<std::string_view> texts;
        for (const JsonValue& one : value)
            if (one.is(Kind::Text))
                texts.push_back(one.text);
        if (value.is(Kind::List) && value.size == 3 && texts.size() == 2)
            to = {std::string(texts[0]), std::string(texts[1])};
        else
            fail("one of `" + path(name) + "`", "a name and a value");
    }
    template <class T> void read(const JsonValue& value, const char* name, T& to) {
        if (!value.is(Kind::Object))
            return fail("one of `" + path(name) + "`", "an object");
        RecordReader entry(value, *this, name);
        fields(entry, to);
    }
};

} // namespace acre::engine
