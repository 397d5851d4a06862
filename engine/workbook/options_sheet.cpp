// The job and its options side by side.
#include <cmath>

#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/sheet_writer.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::uint32_t options_head = 3;

class OptionsPage {
  public:
    OptionsPage(const BookJobs& jobs, BookSheet& sheet) : jobs_(jobs), out_(sheet), sheet_(sheet) {}

    void write() {
        out_.text(0, 0, "Options side by side", Look::Title);
        out_.text(1, 0, "An option follows the job in everything that it does not set itself.");
        out_.text(row_, 0, "", Look::Heading);
        for (std::size_t j = 0; j < jobs_.size(); ++j)
            out_.text(row_, column(j), jobs_[j].title, Look::FigureHeading);
        ++row_;
        const lang::Sheet& sheet = jobs_[0].job->sheet();
        for (std::size_t i = 0; i < sheet.prices.size(); ++i)
            item(i);
        out_.text(row_, 0, "Price", Look::Total);
        for (std::size_t j = 0; j < jobs_.size(); ++j)
            out_.formula(row_, column(j), "=" + jobs_[j].lines->at(jobs_[j].lines->checks().total),
                         dollars(*jobs_[j].job), money_format(), Look::Total);
        ++row_;
        line("All in, per unit", &lang::Sheet::price_per_unit);
        line("Costs", &lang::Sheet::cost_total);
        line("Profit, overhead paid", &lang::Sheet::profit_total);
        status();
    }

  private:
    static std::uint32_t column(std::size_t job) { return 1 + static_cast<std::uint32_t>(job); }
    static double dollars(const PricedJob& job) {
        double sum = 0;
        for (const lang::PriceItem& item : job.sheet().prices)
            sum += static_cast<double>(charged_for(job, item).cents) / 100;
        return sum;
    }

    void item(std::size_t index) {
        out_.text(row_, 0, jobs_[0].job->sheet().prices[index].title, Look::Wrapped);
        for (std::size_t j = 0; j < jobs_.size(); ++j) {
            const PricedJob& job = *jobs_[j].job;
            const JobLines& lines = *jobs_[j].lines;
            if (index < job.sheet().prices.size())
                out_.formula(
                    row_, column(j), "=" + lines.at(lines.checks().items[index].cents),
                    static_cast<double>(charged_for(job, job.sheet().prices[index]).cents) / 100,
                    money_format());
        }
        ++row_;
    }

    void line(const char* label, lang::LineId lang::Sheet::*which) {
        out_.text(row_, 0, label);
        for (std::size_t j = 0; j < jobs_.size(); ++j)
            if (const lang::LineId id = jobs_[j].job->sheet().*which; id != none)
                out_.formula(row_, column(j), "=" + jobs_[j].lines->value_of(id),
                             jobs_[j].job->value(id), money_format());
        ++row_;
    }

    void status() {
        out_.text(row_, 0, "What stands against it");
        for (std::size_t j = 0; j < jobs_.size(); ++j) {
            const JobLines& lines = *jobs_[j].lines;
            out_.words(row_, column(j), "=" + lines.at(lines.checks().status), "", Look::Warning);
            const std::string cell = std::string(1, static_cast<char>('A' + column(j)));
            sheet_.red.push_back({options_head + 1, column(j), row_, column(j),
                                  "=" + cell + "$" + std::to_string(row_ + 1) + "<>\"\""});
        }
    }

    const BookJobs& jobs_;
    SheetWriter out_;
    BookSheet& sheet_;
    std::uint32_t row_ = options_head;
};

} // namespace

BookSheet options_sheet(const BookJobs& jobs) {
    BookSheet sheet;
    sheet.name = "Options";
    sheet.widths = {30};
    sheet.widths.insert(sheet.widths.end(), jobs.size(), 22);
    sheet.frozen_rows = options_head + 1;
    sheet.landscape = true;
    OptionsPage(jobs, sheet).write();
    return sheet;
}

} // namespace acre::engine
