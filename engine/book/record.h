// What a quote keeps: every text it was made from, every value with its place and reason, every
// line, the price in cents. From the texts alone the price can be worked out again, whatever
// happened to the files since.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "engine/job/priced_job.h"
#include "engine/job/used_texts.h"
#include "engine/questions/estimate.h"
#include "lang/compile.h"

namespace acre::engine {

inline constexpr std::string_view record_schema = "acrewright.record/1";

// The texts of a record, for a UsedTextsLoader.
UsedTexts used_texts_of(const nlohmann::json& record);

// The members of a record that follow from the job alone: schema, job, texts, references, givens,
// lines, costs, items, price, cautions, program. The caller adds number, dates and people. All
// numbers are finite: a line without an answer is left out.
nlohmann::json record_of(const PricedJob& job, const Estimate& estimate,
                         std::string_view program_version);

// The version of the notation whose rules the texts of a record keep; those that state none are of
// the first.
std::uint32_t notation_of(const nlohmann::json& record);

// The request that a record was made from. Empty if the record lacks a member it needs.
std::optional<lang::Request> request_of(const nlohmann::json& record);

// Parts of a record, for those who compare one with what is so now: the lines with an answer;
// costs, items, price and cautions.
nlohmann::json record_lines(const PricedJob& job);
void put_estimate(const Estimate& estimate, nlohmann::json& record);

} // namespace acre::engine
