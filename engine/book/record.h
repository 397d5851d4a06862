// What a quote keeps: every text it was made from, every value with its place and reason, every
// line, the price in cents. From the texts alone the price can be worked out again, whatever
// happened to the files since.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/priced_job.h"
#include "engine/questions/estimate.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::string_view record_schema = "acrewright.record/1";

// The texts of a record, for a UsedTextsLoader.
UsedTexts used_texts_of(const nlohmann::json& record);

// The members of a record that follow from the job alone: schema, job, texts, references, givens,
// lines, costs, items, price, cautions, program. The caller adds number, dates and people. All
// numbers are finite: a line without an answer is left out.
nlohmann::json record_of(const PricedJob& job, const Estimate& estimate,
                         std::string_view program_version);

// The request that a record was made from. Empty if the record lacks a member it needs.
std::optional<lang::Request> request_of(const nlohmann::json& record);

// What differs between a record and the price worked out again from its own texts: "price:
// 12,480,000 cents in the record, 12,480,100 now", "fuel_price: 4.35 …". Empty: the same cents,
// items, givens and lines (to 12 digits). `again`: made of request_of(record) and its texts;
// `estimate`: of that job.
std::vector<std::string> differences(const nlohmann::json& record, const lang::Outcome<Job>& again,
                                     const lang::Outcome<Estimate>& estimate);

} // namespace acre::engine
