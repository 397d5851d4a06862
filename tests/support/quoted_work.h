// A job of the models of this repository as it was quoted, its log, its bill and what it cost.
#pragma once

#include <map>
#include <string>

#include <doctest/doctest.h>

#include "engine/billing/bill.h"
#include "engine/book/make_record.h"
#include "engine/book/quoted.h"
#include "engine/log/log_checks.h"
#include "engine/questions/estimate.h"
#include "engine/questions/variance.h"
#include "tests/support/demo.h"

namespace acre::tests {

// A job of one of the models, 28 miles out.
inline std::string bench_job(const std::string& model, const std::string& sets) {
    return "job \"Bench\"\nmodel \"" + model + "\"\nseason \"2027\"\nset site.miles = 28 mi\n" +
           sets;
}

class QuotedWork {
  public:
    // `job` is the text of a job in the season 2027; `models` are further models by file name.
    explicit QuotedWork(const std::string& job, std::map<std::string, std::string> models = {}) {
        Choices choices;
        for (const auto& path : demo_files("models", ".rate"))
            choices.files[path.filename().string()] = text_of(path);
        for (const char* ending : {".season", ".firm"})
            for (const auto& path : demo_files("examples", ending))
                choices.files[path.filename().string()] = text_of(path);
        for (auto& [name, text] : models)
            choices.files[name] = std::move(text);
        priced_ = priced_ok(job, choices);
        const lang::Outcome<engine::Estimate> estimate = engine::estimate(priced_);
        REQUIRE(estimate.value.has_value());
        quote = engine::quote_of(priced_, *estimate);
        quote.number = "2027-001";
    }

    engine::QuoteRecord quote;

    const engine::PricedJob& job() const { return priced_; }
    double value(std::string_view line) const { return priced_.value(line); }
    engine::JobLog log(const std::string& text) const {
        lang::Outcome<engine::JobLog> read =
            engine::read_job_log("log.csv", text, engine::log_lines(quote));
        REQUIRE(read.value.has_value());
        return std::move(*read);
    }
    lang::Outcome<engine::BillAnswer> bill(const engine::JobLog& log) const {
        engine::BillQuestion question;
        question.quote = &quote;
        question.log = &log;
        question.date = "2027-12-31";
        return engine::ask(question);
    }
    engine::VarianceAnswer variance(const engine::JobLog& log, bool finished = true) const {
        engine::Quoted quoted = engine::quoted_of(quote);
        quoted.finished = finished;
        lang::Outcome<engine::VarianceAnswer> answer = engine::ask(quoted, log);
        REQUIRE(answer.value.has_value());
        return std::move(*answer);
    }
    // The titles of what is doubted in a log, one a line.
    std::string doubts(const engine::JobLog& log) const {
        engine::LogContext context;
        context.counted = engine::log_lines(quote);
        std::string titles;
        const lang::Diagnostics doubts = engine::check_log(log, context);
        for (const lang::Diagnostic& doubt : doubts.all())
            titles += doubt.title + "\n";
        return titles;
    }

  private:
    Priced priced_{lang::Outcome<engine::Job>(lang::Said())};
};

inline const engine::VarianceRow& row_of(const engine::VarianceAnswer& answer,
                                         const std::string& cost) {
    for (const engine::VarianceRow& row : answer.rows)
        if (row.quoted.name == cost)
            return row;
    FAIL("no row of " << cost);
    return answer.rows.front();
}

} // namespace acre::tests
