#include <algorithm>
#include <iterator>

#include "lang/diag/glyph.h"
#include "lang/syntax/tidy_rows.h"

namespace acre::lang {

namespace {

using TidyRows = std::vector<TidyRow>::iterator;

// Wider gaps than this are not made to line something up: the eye does not follow them.
constexpr std::size_t widest_spread = 40;
constexpr std::size_t widest_line = 110; // of a line with its comment lined up

// The pieces of a row that are not yet part of its text, up to the next stop.
class Filler {
  public:
    explicit Filler(TidyRow& row) : row_(row) {
        row_.text.assign(row_.indent, ' ');
        advance();
    }
    Stop stop() const { return next_ < row_.pieces.size() ? row_.pieces[next_].stop : Stop::None; }
    bool done() const { return next_ == row_.pieces.size(); }
    // Where the next piece would stand by itself.
    std::size_t column() const { return text_columns(row_.text) + row_.pieces[next_].gap; }
    void move_to(std::size_t column) {
        row_.text.append(column - text_columns(row_.text), ' ');
        row_.text += row_.pieces[next_++].text;
        advance();
    }

  private:
    void advance() {
        for (; next_ < row_.pieces.size() && row_.pieces[next_].stop == Stop::None; ++next_) {
            row_.text.append(row_.pieces[next_].gap, ' ');
            row_.text += row_.pieces[next_].text;
        }
    }
    TidyRow& row_;
    std::size_t next_ = 0;
};

void align_run(TidyRows begin, TidyRows end) {
    std::vector<Filler> fillers;
    for (auto row = begin; row != end; ++row)
        if (row == begin || row->aligned)
            fillers.emplace_back(*row);
        else
            Filler alone(*row); // a continued line has no stops
    for (const Stop stop : {Stop::Colon, Stop::Equals, Stop::Over, Stop::Second}) {
        std::size_t least = std::string::npos;
        std::size_t most = 0;
        for (const Filler& f : fillers) {
            if (f.stop() != stop)
                continue;
            least = std::min(least, f.column());
            most = std::max(most, f.column());
        }
        const bool together = most >= least && most - least <= widest_spread;
        for (Filler& f : fillers)
            if (f.stop() == stop)
                f.move_to(together ? most : f.column());
    }
}

bool continues_run(const TidyRow& first, const TidyRow& row) {
    if (row.pieces.empty())
        return false;
    return !row.aligned || (row.group == first.group && row.indent == first.indent);
}

void align_comments(TidyRows begin, TidyRows end) {
    std::size_t column = 0;
    std::size_t longest = 0;
    for (auto row = begin; row != end; ++row) {
        column = std::max(column, text_columns(row->text) + 2);
        longest = std::max(longest, text_columns(row->comment));
    }
    for (auto row = begin; row != end; ++row) {
        const std::size_t own = text_columns(row->text);
        row->text.append(column + longest <= widest_line ? column - own : 2, ' ');
        row->text += row->comment;
    }
}

} // namespace

void align(std::vector<TidyRow>& rows) {
    for (auto run = rows.begin(); run != rows.end();) {
        const auto end = std::find_if(std::next(run), rows.end(), [&](const TidyRow& row) {
            return run->pieces.empty() || !continues_run(*run, row);
        });
        align_run(run, end);
        run = end;
    }
    const auto has_both = [](const TidyRow& row) {
        return !row.pieces.empty() && !row.comment.empty();
    };
    for (auto row = rows.begin(); row != rows.end();) {
        if (has_both(*row)) {
            const auto end = std::find_if(row, rows.end(), [&](const TidyRow& other) {
                return !has_both(other) || other.indent != row->indent;
            });
            align_comments(row, end);
            row = end;
        } else {
            if (!row->comment.empty()) {
                row->text.assign(row->indent, ' ');
                row->text += row->comment;
            }
            ++row;
        }
    }
    for (TidyRow& row : rows)
        row.text.erase(row.text.find_last_not_of(' ') + 1);
}

} // namespace acre::lang
