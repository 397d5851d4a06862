#include "cli/workbook/xlsx.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <ctime>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/shared/files/descriptor.h"
#include "cli/workbook/cell_words.h"
#include "cli/workbook/library_words.h"
#include "cli/workbook/whole.h"
#include "cli/workbook/xlsx_formats.h"
#include "cli/workbook/xlsx_library.h"

#ifdef __SANITIZE_ADDRESS__
// libxlsxwriter 1.1.4 copies the formula of a list that cells choose from twice and lets go of
// one.
extern "C" const char* __lsan_default_suppressions() {
    return "leak:lxw_strdup\n";
}
extern "C" const char* __lsan_default_options() {
    return "print_suppressions=0";
}
#endif

namespace acre::cli {
namespace {

using engine::BookCell;
using engine::BookSheet;
using engine::CellKind;
using engine::Look;

// Asked for once it is known to be there.
const XlsxLibrary& xlsx() {
    return *xlsx_library();
}

constexpr std::uint8_t letter_paper = 1;
constexpr double row_height = 15; // points
// Letters of a column that a letter page lying on its side takes, where the font of the sheet is
// not there and a wider one takes its place.
constexpr double letters_across = 97;
constexpr std::size_t most_property_letters = 255; // of a text about the workbook
constexpr long first_zip_day = 3'652;              // 1980-01-01, before which a zip knows no day

class SheetFile {
  public:
    SheetFile(lxw_worksheet* sheet, Formats& formats) : sheet_(sheet), formats_(formats) {}

    // The library's reason; nothing: all is well.
    lxw_error put(const BookSheet& from) {
        for (std::size_t i = 0; i < from.widths.size(); ++i)
            keep(xlsx().worksheet_set_column(sheet_, static_cast<lxw_col_t>(i),
                                             static_cast<lxw_col_t>(i), from.widths[i], nullptr));
        for (const BookCell& cell : from.cells)
            put(cell, from);
        for (const auto& [row, rows] : rows_of_print_)
            keep(xlsx().worksheet_set_row(sheet_, row, row_height * std::min(rows, 25.0), nullptr));
        for (const engine::CellRule& rule : from.rules)
            put(rule);
        for (const engine::RedWhen& when : from.red)
            put(when);
        print(from);
        return failed_;
    }

  private:
    void keep(lxw_error error) {
        if (failed_ == LXW_NO_ERROR)
            failed_ = error;
    }

    void put(const BookCell& cell, const BookSheet& from) {
        lxw_format* format = formats_.of(cell.look, cell.format);
        const auto column = static_cast<lxw_col_t>(cell.column);
        if (cell.span > 1)
            keep(xlsx().worksheet_merge_range(sheet_, cell.row, column, cell.row,
                                              static_cast<lxw_col_t>(cell.column + cell.span - 1),
                                              "", format));
        measure(cell, from);
        switch (cell.kind) {
        case CellKind::Text:
            if (cell.text.empty())
                keep(xlsx().worksheet_write_blank(sheet_, cell.row, column, format));
            else
                keep(xlsx().worksheet_write_string(sheet_, cell.row, column,
                                                   cell_words(cell.text).c_str(), format));
            break;
        case CellKind::Number:
            if (std::isfinite(cell.number))
                keep(xlsx().worksheet_write_number(sheet_, cell.row, column, cell.number, format));
            else
                keep(xlsx().worksheet_write_formula_str(sheet_, cell.row, column, "=NA()", format,
                                                        "#N/A"));
            break;
        case CellKind::Formula:
            if (std::isfinite(cell.number))
                keep(xlsx().worksheet_write_formula_num(sheet_, cell.row, column, cell.text.c_str(),
                                                        format, cell.number));
            else
                keep(xlsx().worksheet_write_formula_str(sheet_, cell.row, column, cell.text.c_str(),
                                                        format, cell_words(cell.shown).c_str()));
            break;
        case CellKind::Blank:
            keep(xlsx().worksheet_write_blank(sheet_, cell.row, column, format));
            break;
        }
    }

    // Not every program makes a row as high as its texts: letters by width, which is told in
    // figures and those are wider than most letters; some less a line because words do not break.
    void measure(const BookCell& cell, const BookSheet& from) {
        if (cell.look != Look::Wrapped && cell.look != Look::Small && cell.look != Look::Heading &&
            cell.look != Look::FigureHeading)
            return;
        double width = 0;
        for (std::size_t i = cell.column; i < cell.column + cell.span && i < from.widths.size();
             ++i)
            width += from.widths[i];
        const std::string& text = cell.kind == CellKind::Text ? cell.text : cell.shown;
        const double letters = static_cast<double>(std::min(text.size(), most_cell_letters));
        const bool small = cell.look == Look::Small;
        const double rows =
            std::ceil(letters / std::max(width * (small ? 1.45 : 1.15), 8.0)) * (small ? 0.75 : 1);
        if (rows > 1)
            rows_of_print_[cell.row] = std::max(rows_of_print_[cell.row], rows);
    }

    void put(const engine::CellRule& rule) {
        lxw_data_validation what{};
        std::string title = "Not this value";
        std::string message = rule.list.empty() ? "It is outside the allowed range beside it."
                                                : "Take one of the list.";
        std::string low = rule.low;
        std::string high = rule.high;
        std::string list = rule.list;
        what.error_title = title.data();
        what.error_message = message.data();
        what.ignore_blank = LXW_VALIDATION_OFF;
        if (!list.empty()) {
            what.validate = LXW_VALIDATION_TYPE_LIST_FORMULA;
            what.value_formula = list.data();
        } else {
            what.validate = LXW_VALIDATION_TYPE_DECIMAL_FORMULA;
            what.criteria = LXW_VALIDATION_CRITERIA_BETWEEN;
            what.minimum_formula = low.data();
            what.maximum_formula = high.data();
        }
        keep(xlsx().worksheet_data_validation_cell(sheet_, rule.row,
                                                   static_cast<lxw_col_t>(rule.column), &what));
    }

    void put(const engine::RedWhen& when) {
        lxw_conditional_format what{};
        std::string formula = when.formula;
        what.type = LXW_CONDITIONAL_TYPE_FORMULA;
        what.value_string = formula.data();
        what.format = formats_.red_figure();
        keep(xlsx().worksheet_conditional_format_range(
            sheet_, when.first_row, static_cast<lxw_col_t>(when.first_column), when.last_row,
            static_cast<lxw_col_t>(when.last_column), &what));
    }

    // Not fitted to pages, or a spreadsheet breaks where it likes: scaled by its own widths.
    lxw_error side_by_side(const BookSheet& from) {
        double first = 0, second = from.widths.empty() ? 0 : from.widths[0];
        for (std::size_t i = 0; i < from.widths.size(); ++i)
            (i < from.second_page ? first : second) += from.widths[i];
        const double scale = 100 * letters_across / std::max({first, second, 1.0});
        xlsx().worksheet_set_print_scale(
            sheet_, static_cast<std::uint16_t>(std::clamp(scale, 10.0, 100.0)));
        std::array<lxw_col_t, 2> breaks = {static_cast<lxw_col_t>(from.second_page), 0};
        const lxw_error error = xlsx().worksheet_set_v_pagebreaks(sheet_, breaks.data());
        return error != LXW_NO_ERROR ? error : xlsx().worksheet_repeat_columns(sheet_, 0, 0);
    }

    void print(const BookSheet& from) {
        xlsx().worksheet_set_paper(sheet_, letter_paper);
        if (from.landscape)
            xlsx().worksheet_set_landscape(sheet_);
        if (from.second_page == 0)
            xlsx().worksheet_fit_to_pages(sheet_, 1, 0);
        else
            keep(side_by_side(from));
        xlsx().worksheet_set_margins(sheet_, 0.5, 0.5, 0.6, 0.6);
        keep(xlsx().worksheet_set_footer(sheet_, "&L&A&RPage &P of &N"));
        if (from.frozen_rows > 0) {
            xlsx().worksheet_freeze_panes(sheet_, from.frozen_rows, 1);
            keep(xlsx().worksheet_repeat_rows(sheet_, from.frozen_rows - 1, from.frozen_rows - 1));
        }
        lxw_protection allowed{};
        allowed.format_columns = allowed.format_rows = allowed.autofilter = LXW_TRUE;
        xlsx().worksheet_protect(sheet_, nullptr, &allowed);
    }

    lxw_worksheet* sheet_;
    Formats& formats_;
    lxw_error failed_ = LXW_NO_ERROR;
    std::map<std::uint32_t, double> rows_of_print_; // by row, where it is more than one
};

lang::Diagnostic refused(std::vector<std::string> reasons, std::vector<std::string> help = {}) {
    return lang::placeless(lang::Code::F707, "the workbook cannot be made", std::move(reasons),
                           std::move(help));
}

lxw_error put_all(lxw_workbook* file, const engine::Workbook& book) {
    Formats formats(file);
    lxw_error failed = LXW_NO_ERROR;
    for (const BookSheet& sheet : book.sheets) {
        lxw_worksheet* one = xlsx().workbook_add_worksheet(file, sheet.name.c_str());
        const lxw_error error =
            one == nullptr ? LXW_ERROR_MEMORY_MALLOC_FAILED : SheetFile(one, formats).put(sheet);
        failed = failed == LXW_NO_ERROR ? error : failed;
    }
    for (const auto& [name, formula] : book.names) {
        const lxw_error error = xlsx().workbook_define_name(file, name.c_str(), formula.c_str());
        failed = failed == LXW_NO_ERROR ? error : failed;
    }
    std::string title = cell_words(book.title, most_property_letters);
    lxw_doc_properties properties{};
    properties.title = title.data();
    properties.created = std::time_t{book.day.value_or(first_zip_day)} * 86'400;
    const lxw_error error = xlsx().workbook_set_properties(file, &properties);
    return failed == LXW_NO_ERROR ? error : failed;
}

// The library writes files alone: this one is in memory, so that the disk is changed where it
// always is.
lang::Outcome<std::string> bytes_of(int file) {
    struct stat is {};
    if (::fstat(file, &is) != 0)
        return refused({"its size is not known"});
    std::string bytes(static_cast<std::size_t>(is.st_size), '\0');
    std::size_t done = 0;
    while (done < bytes.size()) {
        const ssize_t got =
            ::pread(file, bytes.data() + done, bytes.size() - done, static_cast<off_t>(done));
        if (got <= 0)
            return refused({"it cannot be read back"});
        done += static_cast<std::size_t>(got);
    }
    return bytes;
}

} // namespace

lang::Outcome<std::string> xlsx_of(const engine::Workbook& book) {
    if (xlsx_library() == nullptr)
        return refused(
            {std::string("the library that writes it is not there: ") + xlsx_library_name},
            {"install Debian's package libxlsxwriter4"});
    const Descriptor memory(::memfd_create("workbook", MFD_CLOEXEC));
    if (!memory)
        return refused({"no memory for it"});
    const std::string path = "/proc/self/fd/" + std::to_string(memory.value());
    const std::vector<std::string> room = {
        "free some room in /tmp, or name another folder in TMPDIR"};
    const LibraryWords words;
    lxw_workbook* file = xlsx().workbook_new(path.c_str());
    if (file == nullptr)
        return refused({"no memory for it"});
    const lxw_error put = put_all(file, book);
    const lxw_error closed = xlsx().workbook_close(file);
    if (put != LXW_NO_ERROR || closed != LXW_NO_ERROR) {
        if (std::string reason = words.system_reason(); !reason.empty())
            return refused({"its temporary files: " + std::move(reason)}, room);
        return refused({xlsx().lxw_strerror(put != LXW_NO_ERROR ? put : closed)});
    }
    lang::Outcome<std::string> bytes = bytes_of(memory.value());
    if (bytes && !is_whole(*bytes, book))
        return refused({"there was no room for its temporary files"}, room);
    return bytes;
}

} // namespace acre::cli
