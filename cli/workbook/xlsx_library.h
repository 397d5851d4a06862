// libxlsxwriter and the zlib it brings, loaded when the first workbook is written: linked to the
// program, they and the cryptography that comes along would take every start of the program 2 ms.
#pragma once

#include <xlsxwriter.h>
#include <zlib.h>

namespace acre::cli {

// clang-format off
#define ACRE_XLSX_FUNCTIONS(X) \
    X(format_set_align) \
    X(format_set_bg_color) \
    X(format_set_bold) \
    X(format_set_border) \
    X(format_set_border_color) \
    X(format_set_bottom) \
    X(format_set_bottom_color) \
    X(format_set_font_color) \
    X(format_set_font_name) \
    X(format_set_font_size) \
    X(format_set_indent) \
    X(format_set_num_format) \
    X(format_set_text_wrap) \
    X(format_set_top) \
    X(format_set_unlocked) \
    X(inflate) \
    X(inflateEnd) \
    X(inflateInit2_) \
    X(lxw_strerror) \
    X(workbook_add_format) \
    X(workbook_add_worksheet) \
    X(workbook_close) \
    X(workbook_define_name) \
    X(workbook_new) \
    X(workbook_set_properties) \
    X(worksheet_conditional_format_range) \
    X(worksheet_data_validation_cell) \
    X(worksheet_fit_to_pages) \
    X(worksheet_freeze_panes) \
    X(worksheet_merge_range) \
    X(worksheet_protect) \
    X(worksheet_repeat_columns) \
    X(worksheet_repeat_rows) \
    X(worksheet_set_column) \
    X(worksheet_set_footer) \
    X(worksheet_set_landscape) \
    X(worksheet_set_margins) \
    X(worksheet_set_paper) \
    X(worksheet_set_print_scale) \
    X(worksheet_set_row) \
    X(worksheet_set_v_pagebreaks) \
    X(worksheet_write_blank) \
    X(worksheet_write_formula_num) \
    X(worksheet_write_formula_str) \
    X(worksheet_write_number) \
    X(worksheet_write_string)
// clang-format on

struct XlsxLibrary {
#define ACRE_XLSX_MEMBER(name) decltype(&::name) name = nullptr;
    ACRE_XLSX_FUNCTIONS(ACRE_XLSX_MEMBER)
#undef ACRE_XLSX_MEMBER
};

extern const char* const xlsx_library_name; // of its file
// None where it is not there, or lacks a function.
const XlsxLibrary* xlsx_library();

} // namespace acre::cli
