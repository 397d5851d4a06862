#include "cli/workbook/xlsx_formats.h"

namespace acre::cli {

using engine::Look;

namespace {

// Asked for once it is known to be there.
const XlsxLibrary& formats_by() {
    return *xlsx_library();
}

enum : lxw_color_t {
    yellow = 0xFFF5C2,
    pale = 0xEDEDE6,
    red = 0xC00000,
    pale_red = 0xFBE3E1,
    gray = 0x6B6B6B,
    line = 0xC9C7BC,
};

void typed(lxw_format* format) {
    formats_by().format_set_bg_color(format, yellow);
    formats_by().format_set_border(format, LXW_BORDER_THIN);
    formats_by().format_set_border_color(format, line);
    formats_by().format_set_unlocked(format);
}

void dress(Look look, lxw_format* format) {
    switch (look) {
    case Look::Title:
    case Look::Part:
        formats_by().format_set_bold(format);
        break;
    case Look::FigureHeading:
    case Look::UnitHeading:
    case Look::Heading:
        if (look == Look::FigureHeading)
            formats_by().format_set_align(format, LXW_ALIGN_RIGHT);
        if (look == Look::UnitHeading)
            formats_by().format_set_indent(format, 1);
        formats_by().format_set_bold(format);
        formats_by().format_set_bg_color(format, pale);
        formats_by().format_set_bottom(format, LXW_BORDER_THIN);
        formats_by().format_set_bottom_color(format, line);
        formats_by().format_set_text_wrap(format);
        break;
    case Look::Unit:
        formats_by().format_set_indent(format, 1);
        break;
    case Look::Total:
        formats_by().format_set_bold(format);
        formats_by().format_set_top(format, LXW_BORDER_THIN);
        break;
    case Look::Small:
        formats_by().format_set_font_color(format, gray);
        formats_by().format_set_text_wrap(format);
        break;
    case Look::Wrapped:
        formats_by().format_set_text_wrap(format);
        break;
    case Look::Warning:
        formats_by().format_set_bold(format);
        formats_by().format_set_font_color(format, red);
        break;
    case Look::TypedChoice: // a text: `mar 1` is no date here
        formats_by().format_set_num_format(format, "@");
        typed(format);
        break;
    case Look::TypedReason:
        formats_by().format_set_num_format(format, "@");
        formats_by().format_set_text_wrap(format);
        typed(format);
        break;
    case Look::Typed:
        typed(format);
        break;
    case Look::Plain:
    case Look::Figure:
        break;
    }
}

} // namespace

lxw_format* Formats::of(Look look, const std::string& number) {
    lxw_format*& made = made_[{look, number}];
    if (made == nullptr)
        made = make(look, number);
    return made;
}

lxw_format* Formats::red_figure() {
    lxw_format* format = formats_by().workbook_add_format(book_);
    formats_by().format_set_font_color(format, red);
    formats_by().format_set_bg_color(format, pale_red);
    return format;
}

lxw_format* Formats::make(Look look, const std::string& number) {
    lxw_format* format = formats_by().workbook_add_format(book_);
    formats_by().format_set_font_name(format, "Arial");
    formats_by().format_set_font_size(format, look == Look::Title   ? 15
                                              : look == Look::Small ? 8
                                                                    : 10);
    formats_by().format_set_align(format, LXW_ALIGN_VERTICAL_CENTER);
    if (!number.empty() && number != "General")
        formats_by().format_set_num_format(format, number.c_str());
    dress(look, format);
    return format;
}

} // namespace acre::cli
