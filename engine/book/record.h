// What a quote keeps: every text it was made from, every value with its place and reason, every
// line, the price in cents. From the texts alone the price can be worked out again, whatever
// happened to the files since.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/plan/compile_plan.h"
#include "engine/questions/estimate.h"
#include "engine/readers/value.h"
#include "engine/run.h"
#include "lang/check/sheet.h"
#include "lang/compile.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::engine {

inline constexpr std::string_view record_schema = "acrewright.record/1";

// Asks another loader and remembers what it answered.
class RememberingLoader : public lang::Loader {
  public:
    explicit RememberingLoader(lang::Loader& inner) : inner_(inner) {}
    bool load(lang::ReferenceKind kind, std::string_view reference, std::string_view from,
              lang::Loaded& loaded, lang::LoadFailure& failure) override;

    using Key = std::tuple<lang::ReferenceKind, std::string, std::string>; // kind, reference, from
    const std::map<Key, std::string>& names() const { return names_; } // to the name of the text
    const std::map<std::string, std::string>& texts() const { return texts_; }

  private:
    lang::Loader& inner_;
    std::map<Key, std::string> names_;
    std::map<std::string, std::string> texts_;
};

// Answers from a record, and from nothing else.
class RecordLoader : public lang::Loader {
  public:
    explicit RecordLoader(const nlohmann::json& record);
    bool load(lang::ReferenceKind kind, std::string_view reference, std::string_view from,
              lang::Loaded& loaded, lang::LoadFailure& failure) override;

  private:
    std::map<RememberingLoader::Key, std::string> names_;
    std::map<std::string, std::string> texts_;
};

// The members of a record that follow from the job alone: schema, job, texts, references, givens,
// lines, costs, items, price, cautions, program. The caller adds number, dates and people. All
// numbers are finite: a line without an answer is left out.
nlohmann::json record_of(const lang::Request& request, const RememberingLoader& loader,
                         const lang::CheckedSheet& sheet, const Compiled& compiled,
                         const Values& values, const Estimate& estimate,
                         const lang::SourceMap& sources, std::string_view program_version);

// The request that a record was made from. Empty if the record lacks a member it needs.
std::optional<lang::Request> request_of(const nlohmann::json& record);

// What differs between a record and the price worked out again from its own texts: "price:
// 12,480,000 cents in the record, 12,480,100 now", "fuel_price: 4.35 …". Empty: the same cents,
// items, givens and lines (to 12 digits). `again`: run on request_of(record) with a RecordLoader;
// `estimate`: of that run, empty if it gave none.
std::vector<std::string> differences(const nlohmann::json& record, const Run& again,
                                     const std::optional<Estimate>& estimate);

} // namespace acre::engine
