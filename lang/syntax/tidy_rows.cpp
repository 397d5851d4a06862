#include "lang/syntax/tidy_rows.h"

#include <algorithm>

#include "lang/syntax/tokens.h"
#include "lang/units/catalog.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

// The end of a unit that begins at `at`, or of what follows a dollar amount: the text has been
// parsed, so it is well-formed.
class UnitScan {
  public:
    static bool begins_factor(std::string_view text) {
        return !text.empty() && (is_letter(text.front()) || text.front() == '%' ||
                                 text.front() == '(' || money_sign_size(text) > 0);
    }
    UnitScan(std::string_view text, std::uint32_t at, std::uint32_t end)
        : text_(text),
          at_(at),
          end_(end) {}

    std::uint32_t whole() {
        factor();
        return tails();
    }
    std::uint32_t tails() {
        while (at_ + 1 < end_ && (text_[at_] == '.' || text_[at_] == '/') &&
               begins_factor(text_.substr(at_ + 1))) {
            ++at_;
            factor();
        }
        return at_;
    }

  private:
    void factor() {
        if (is_letter(text_[at_]))
            while (at_ < end_ && is_name_char(text_[at_]))
                ++at_;
        else if (text_[at_] == '(')
            at_ = static_cast<std::uint32_t>(text_.find(')', at_)) + 1;
        else
            at_ += std::max(std::uint32_t{1},
                            static_cast<std::uint32_t>(money_sign_size(text_.substr(at_))));
        if (at_ < end_ && text_[at_] == '^') {
            ++at_;
            while (at_ < end_ && (is_digit(text_[at_]) || text_[at_] == '-'))
                ++at_;
        }
    }

    std::string_view text_;
    std::uint32_t at_;
    std::uint32_t end_;
};

constexpr std::uint32_t date_bytes = 10; // 2027-03-14

class StatementRows {
  public:
    StatementRows(std::string_view text, const LogicalLine& line, Keyword parent,
                  const std::vector<std::uint32_t>& binary_minus)
        : text_(text),
          line_(line),
          parent_(parent),
          binary_minus_(binary_minus) {}

    std::vector<TidyRow> run() {
        rows_.emplace_back();
        for (Token t = next_token(text_, line_.begin, line_.end); t.kind != TokenKind::End;
             t = next_token(text_, t.end, line_.end))
            take(t);
        if (rows_.back().pieces.empty() && rows_.back().comment.empty())
            rows_.pop_back();
        rows_.front().aligned = true;
        rows_.front().group = group();
        return std::move(rows_);
    }

  private:
    // What stands before, as far as the blanks between two pieces depend on it.
    enum class Before : std::uint8_t {
        Start,
        Word,
        Name,
        Number,
        Colon,
        Per,
        Open,
        UnaryMinus,
        Other
    };

    // Statements that are lined up with each other; the words of a job's head go together.
    Keyword group() const {
        if (parent_ == Keyword::None &&
            (line_.head == Keyword::Season || line_.head == Keyword::With ||
             line_.head == Keyword::For || line_.head == Keyword::Date ||
             line_.head == Keyword::Field || line_.head == Keyword::Firm ||
             line_.head == Keyword::Money))
            return Keyword::Model;
        if (parent_ == Keyword::Price)
            return Keyword::Price;
        return line_.head;
    }

    void take(Token& t) {
        if (t.kind == TokenKind::LineEnd) {
            if (!rows_.back().pieces.empty() || !rows_.back().comment.empty())
                rows_.emplace_back();
        } else if (t.kind == TokenKind::Comment) {
            rows_.back().comment = t.in(text_);
        } else if (t.kind == TokenKind::Number && is_date(t)) {
            t.end = t.begin + date_bytes; // a date is one piece
            put(t, Before::Other);
        } else {
            take_solid(t);
        }
    }

    bool is_date(const Token& t) const {
        if (line_.head == Keyword::Date || line_.head == Keyword::Closed)
            return true;
        const std::string_view text = text_.substr(t.begin, date_bytes);
        return line_.head == Keyword::Set && text.size() == date_bytes && text[4] == '-' &&
               text[7] == '-' && text.find_first_not_of("0123456789-") == std::string_view::npos;
    }

    void take_solid(Token& t) {
        const bool row = parent_ == Keyword::Table;
        const bool unit = (before_ == Before::Colon && count_ > 1 && !is_staircase(t)) ||
                          before_ == Before::Per ||
                          (before_ == Before::Number && !row && begins_unit(t));
        if (unit) {
            t.end = UnitScan(text_, t.begin, line_.end).whole();
            put_unit(t);
        } else if (money_sign_size(t.in(text_)) > 0) {
            t.end = UnitScan(text_, next_token(text_, t.end, line_.end).end, line_.end).tails();
            put_unit(t);
        } else {
            put(t, what(t));
        }
    }

    // `: step $/move`: the word before the unit of a table.
    bool is_staircase(Token t) const {
        if (line_.head != Keyword::Table || t.in(text_) != "step")
            return false;
        const Token next = next_solid_token(text_, t.end, line_.end);
        const Keyword word = keyword_of(next.in(text_));
        return next.kind != TokenKind::End && next.kind != TokenKind::Text &&
               word != Keyword::Below && word != Keyword::Above && word != Keyword::Because;
    }

    bool begins_unit(Token t) const {
        const std::string_view s = t.in(text_);
        if (s == "%" || money_sign_size(s) > 0)
            return true;
        if (t.kind == TokenKind::Number)
            return s == "1" && t.end + 1 < line_.end && text_[t.end] == '/' &&
                   UnitScan::begins_factor(text_.substr(t.end + 1));
        const char* const base = text_.data();
        const auto size = static_cast<std::size_t>(end_of_word(base + t.begin, base + line_.end) -
                                                   (base + t.begin));
        return t.kind == TokenKind::Name && !is_reserved(keyword_of(text_.substr(t.begin, size)));
    }

    Before what(Token t) const {
        const std::string_view s = t.in(text_);
        if (t.kind == TokenKind::Number)
            return Before::Number;
        if (t.kind == TokenKind::Name) {
            const Keyword word = keyword_of(s);
            if (word == Keyword::Per)
                return Before::Per;
            if (before_ == Before::Colon && count_ > 1)
                return Before::Colon; // the word of a staircase
            const bool head = count_ == 0 && line_.head != Keyword::None;
            const bool clause = before_text_ == "swing"
                                    ? is_shape(word)
                                    : word == Keyword::Heading && line_.head == Keyword::Field;
            const bool list = before_text_ == "each"; // no function, though a bracket may follow
            return head || clause || list || (is_reserved(word) && role_of(word) != WordRole::Value)
                       ? Before::Word
                       : Before::Name;
        }
        if (s == ":")
            return Before::Colon;
        if (s == "(")
            return Before::Open;
        if (s == "-" && !std::binary_search(binary_minus_.begin(), binary_minus_.end(), t.begin))
            return Before::UnaryMinus;
        return Before::Other;
    }

    static bool is_shape(Keyword word) {
        return word == Keyword::Triangular || word == Keyword::Pert || word == Keyword::Even ||
               word == Keyword::Whole || word == Keyword::Step;
    }

    void put_unit(Token t) {
        put(t, Before::Other);
        TidyPiece& piece = rows_.back().pieces.back();
        piece.text = with_usual_spelling(piece.text);
    }

    void put(Token t, Before next) {
        TidyRow& row = rows_.back();
        const std::string_view s = t.in(text_);
        const Stop stop = rows_.size() == 1 ? stop_of(t) : Stop::None;
        row.pieces.push_back({std::string(s), row.pieces.empty() ? 0 : gap(t), stop});
        if (s == "(")
            ++depth_;
        else if (s == ")")
            --depth_;
        before_ = next;
        before_text_ = s;
        ++count_;
    }

    std::uint32_t gap(Token t) const {
        const std::string_view s = t.in(text_);
        if (before_ == Before::Open || before_ == Before::UnaryMinus || s == "," || s == ")")
            return 0;
        if (s == "(" && before_ == Before::Name)
            return is_head_bracket() ? 1 : 0;
        if (t.kind == TokenKind::Text)
            return count_ == 1 || before_ == Before::Word || before_text_ == "," ||
                           before_text_ == "=" || line_.head == Keyword::Entry ||
                           line_.head == Keyword::Money
                       ? 1
                       : 2;
        const Keyword word = t.kind == TokenKind::Name ? keyword_of(s) : Keyword::None;
        const bool clause =
            word == Keyword::Because || word == Keyword::Swing || word == Keyword::Choose ||
            word == Keyword::May ||
            (word == Keyword::Within && line_.head != Keyword::Example &&
             line_.head != Keyword::Field) ||
            (line_.head == Keyword::Table && (word == Keyword::Below || word == Keyword::Above));
        if (clause || (parent_ == Keyword::Table && stop_of(t) == Stop::Second))
            return 2;
        return 1;
    }

    // The bracket behind the name of a table or a define: `define f (a : ft)`.
    bool is_head_bracket() const {
        return count_ == 2 && (line_.head == Keyword::Table || line_.head == Keyword::Define);
    }

    Stop stop_of(Token t) const {
        const std::string_view s = t.in(text_);
        if (parent_ == Keyword::Table)
            return before_ == Before::Number ? Stop::Second : Stop::None;
        if (parent_ == Keyword::Price)
            return is_behind_step_words() ? Stop::Second : Stop::None;
        if (group() == Keyword::Model && parent_ == Keyword::None)
            return count_ == 1 ? Stop::Second : Stop::None;
        if (depth_ > 0 || line_.head == Keyword::Define || line_.head == Keyword::Table ||
            line_.head == Keyword::Use)
            return Stop::None;
        if (s == ":")
            return Stop::Colon;
        if (s == "=")
            return Stop::Equals;
        return line_.head == Keyword::Cost && s == "over" ? Stop::Over : Stop::None;
    }
    // `overhead`, `at least`, `round to`, `round up to`
    bool is_behind_step_words() const {
        switch (line_.head) {
        case Keyword::At:
            return count_ == 2;
        case Keyword::Round:
            return (count_ == 2 || count_ == 3) && before_text_ == "to";
        default:
            return count_ == 1;
        }
    }

    std::string_view text_;
    const LogicalLine& line_;
    Keyword parent_;
    const std::vector<std::uint32_t>& binary_minus_;
    std::vector<TidyRow> rows_;
    Before before_ = Before::Start;
    std::string_view before_text_;
    std::uint32_t count_ = 0; // pieces so far
    std::uint32_t depth_ = 0; // of brackets
};

} // namespace

std::vector<TidyRow> rows_of(std::string_view text, const LogicalLine& line, Keyword parent,
                             const std::vector<std::uint32_t>& binary_minus) {
    return StatementRows(text, line, parent, binary_minus).run();
}

} // namespace acre::lang
