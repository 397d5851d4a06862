// What a workbook says to a spreadsheet, part by part: cells, how they look and print, what may be
// typed into them. That spreadsheets read it so is tested in tests/workbook.
#include "cli/workbook/xlsx.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "cli/workbook/cell_words.h"
#include "cli/workbook/whole.h"
#include "cli/workbook/xlsx_parts.h"

namespace xlsx_test {

using namespace acre;
using engine::BookCell;
using engine::BookSheet;
using engine::CellKind;
using engine::Look;

namespace {

engine::Workbook book_of(BookSheet sheet) {
    engine::Workbook book;
    book.title = "Meadow";
    sheet.name = "One";
    book.sheets = {std::move(sheet)};
    return book;
}

std::string part(const engine::Workbook& book, const std::string& name) {
    const lang::Outcome<std::string> bytes = cli::xlsx_of(book);
    REQUIRE(bytes);
    const auto parts = cli::parts_of_zip(*bytes);
    REQUIRE(parts);
    for (const auto& [called, content] : *parts)
        if (called == name)
            return content;
    FAIL(name << " is no part");
    return {};
}
std::string sheet_of(BookSheet sheet) {
    return part(book_of(std::move(sheet)), "xl/worksheets/sheet1.xml");
}

// From `<tag` to the end of that element.
std::string element(const std::string& xml, const std::string& tag) {
    const std::size_t at =
        std::min({xml.find("<" + tag + ">"), xml.find("<" + tag + " "), xml.find("<" + tag + "/")});
    if (at == std::string::npos)
        return "none";
    const std::size_t head = xml.find('>', at);
    if (xml[head - 1] == '/')
        return xml.substr(at, head - at + 1);
    const std::string end = "</" + tag + ">";
    return xml.substr(at, xml.find(end, at) + end.size() - at);
}

BookCell cell(CellKind kind, std::string text, double number = 0, std::string shown = {}) {
    BookCell cell;
    cell.kind = kind;
    cell.text = std::move(text);
    cell.number = number;
    cell.shown = std::move(shown);
    return cell;
}

std::string one_cell(const BookCell& cell) {
    return element(sheet_of({"", {10}, {cell}, {}, {}}), "c");
}

// What the only cell looks like: its entry among the styles, with font and fill.
std::string look_of(Look look, const std::string& format = {}) {
    BookCell one = cell(CellKind::Number, "", 7);
    one.look = look;
    one.format = format;
    const std::string styles = part(book_of({"", {10}, {one}, {}, {}}), "xl/styles.xml");
    const auto last = [&](const std::string& tag) {
        const std::string all = element(styles, tag + "s");
        const std::size_t at = all.rfind("<" + tag + ">");
        return at == std::string::npos ? std::string()
                                       : all.substr(at, all.rfind("</" + tag + "s>") - at);
    };
    const std::string entry = element(styles, "cellXfs");
    const std::string own = entry.substr(entry.rfind("<xf ")) + last("font") + last("fill") +
                            last("border") + element(styles, "numFmts");
    std::string words;
    for (const auto& [mark, word] : std::initializer_list<std::pair<const char*, const char*>>{
             {"<b/>", "bold"},
             {"<sz val=\"8\"", "small"},
             {"<sz val=\"15\"", "large"},
             {"<name val=\"Arial\"", "arial"},
             {"<color rgb=\"FFC00000\"", "red"},
             {"<color rgb=\"FF6B6B6B\"", "gray"},
             {"wrapText=\"1\"", "wrapped"},
             {"indent=\"1\"", "indented"},
             {"horizontal=\"right\"", "right"},
             {"vertical=\"center\"", "middle"},
             {"locked=\"0\"", "unlocked"},
             {"<fgColor rgb=\"FFEDEDE6\"", "pale"},
             {"<fgColor rgb=\"FFFFF5C2\"", "yellow"},
             {"<top style=\"thin\"", "above"},
             {"<bottom style=\"thin\"", "below"},
             {"<left style=\"thin\"", "left"},
             {"<color rgb=\"FFC9C7BC\"", "line"},
             {"formatCode=\"0.00\"", "0.00"},
             {"formatCode=\"@\"", "@"}})
        if (own.find(mark) != std::string::npos)
            words += (words.empty() ? "" : " ") + std::string(word);
    return words;
}

} // namespace

TEST_CASE("each kind of cell is what it should be") {
    CHECK(one_cell(cell(CellKind::Number, "", 2.5)) == "<c r=\"A1\" s=\"1\"><v>2.5</v></c>");
    CHECK(one_cell(cell(CellKind::Number, "", NAN)) ==
          "<c r=\"A1\" s=\"1\" t=\"str\"><f>NA()</f><v>#N/A</v></c>");
    CHECK(one_cell(cell(CellKind::Formula, "=1+1", 2)) ==
          "<c r=\"A1\" s=\"1\"><f>1+1</f><v>2</v></c>");
    CHECK(one_cell(cell(CellKind::Formula, "=A2", NAN, "flat")) ==
          "<c r=\"A1\" s=\"1\" t=\"str\"><f>A2</f><v>flat</v></c>");
    CHECK(one_cell(cell(CellKind::Text, "flat")) == "<c r=\"A1\" s=\"1\" t=\"s\"><v>0</v></c>");
    CHECK(one_cell(cell(CellKind::Text, "")) == "<c r=\"A1\" s=\"1\"/>");
    CHECK(one_cell(cell(CellKind::Blank, "")) == "<c r=\"A1\" s=\"1\"/>");
    BookCell wide = cell(CellKind::Text, "over three");
    wide.row = 4;
    wide.column = 1;
    wide.span = 3;
    const std::string sheet = sheet_of({"", {10, 10, 10, 10}, {wide}, {}, {}});
    CHECK(element(sheet, "mergeCells") ==
          "<mergeCells count=\"1\"><mergeCell ref=\"B5:D5\"/></mergeCells>");
    wide.span = 1;
    CHECK(element(sheet_of({"", {10, 10, 10, 10}, {wide}, {}, {}}), "mergeCells") == "none");
}

TEST_CASE("each look is dressed as it should be") {
    CHECK(look_of(Look::Plain) == "arial middle");
    CHECK(look_of(Look::Title) == "bold large arial middle");
    CHECK(look_of(Look::Part) == "bold arial middle");
    CHECK(look_of(Look::Heading) == "bold arial wrapped middle pale below line");
    CHECK(look_of(Look::FigureHeading) == "bold arial wrapped right middle pale below line");
    CHECK(look_of(Look::UnitHeading) == "bold arial wrapped indented middle pale below line");
    CHECK(look_of(Look::Unit) == "arial indented middle");
    CHECK(look_of(Look::Total, "0.00") == "bold arial middle above 0.00");
    CHECK(look_of(Look::Small) == "small arial gray wrapped middle");
    CHECK(look_of(Look::Wrapped) == "arial wrapped middle");
    CHECK(look_of(Look::Warning) == "bold arial red middle");
    CHECK(look_of(Look::Typed, "0.00") ==
          "arial middle unlocked yellow above below left line 0.00");
    CHECK(look_of(Look::TypedChoice) == "arial middle unlocked yellow above below left line @");
    CHECK(look_of(Look::TypedReason) ==
          "arial wrapped middle unlocked yellow above below left line @");
    CHECK(look_of(Look::Figure, "General") == "arial middle");
}

TEST_CASE("a sheet is printed on letter paper, one page wide or two side by side") {
    BookSheet sheet{"", {20, 10, 10}, {cell(CellKind::Text, "a")}, {}, {}};
    const auto prints = [&] {
        const std::string xml = sheet_of(sheet);
        return element(xml, "sheetPr") + element(xml, "pageSetup") + element(xml, "pageMargins") +
               element(xml, "headerFooter") + element(xml, "colBreaks") + element(xml, "pane") +
               element(xml, "sheetProtection");
    };
    const auto names = [&] {
        return element(part(book_of(sheet), "xl/workbook.xml"), "definedNames");
    };
    CHECK(prints() ==
          "<sheetPr><pageSetUpPr fitToPage=\"1\"/></sheetPr><pageSetup paperSize=\"1\" "
          "fitToHeight=\"0\" orientation=\"portrait\"/><pageMargins left=\"0.5\" right=\"0.5\" "
          "top=\"0.6\" bottom=\"0.6\" header=\"0.3\" "
          "footer=\"0.3\"/><headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of "
          "&amp;N</oddFooter></headerFooter>nonenone<sheetProtection sheet=\"1\" objects=\"1\" "
          "scenarios=\"1\" formatColumns=\"0\" formatRows=\"0\" autoFilter=\"0\"/>");
    CHECK(names() == "none");
    sheet.landscape = true;
    sheet.frozen_rows = 3;
    CHECK(prints() ==
          "<sheetPr><pageSetUpPr fitToPage=\"1\"/></sheetPr><pageSetup paperSize=\"1\" "
          "fitToHeight=\"0\" orientation=\"landscape\"/><pageMargins left=\"0.5\" right=\"0.5\" "
          "top=\"0.6\" bottom=\"0.6\" header=\"0.3\" "
          "footer=\"0.3\"/><headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of "
          "&amp;N</oddFooter></headerFooter>none<pane xSplit=\"1\" ySplit=\"3\" topLeftCell=\"B4\" "
          "activePane=\"bottomRight\" state=\"frozen\"/><sheetProtection sheet=\"1\" objects=\"1\" "
          "scenarios=\"1\" formatColumns=\"0\" formatRows=\"0\" autoFilter=\"0\"/>");
    CHECK(names() == "<definedNames><definedName name=\"_xlnm.Print_Titles\" "
                     "localSheetId=\"0\">One!$3:$3</definedName></definedNames>");
    sheet.second_page = 2; // 97 letters of 100 and 20 on the first, so 97 %
    sheet.widths = {20, 80, 10};
    CHECK(prints() ==
          "none<pageSetup paperSize=\"1\" scale=\"97\" orientation=\"landscape\"/><pageMargins "
          "left=\"0.5\" right=\"0.5\" top=\"0.6\" bottom=\"0.6\" header=\"0.3\" "
          "footer=\"0.3\"/><headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of "
          "&amp;N</oddFooter></headerFooter><colBreaks count=\"1\" manualBreakCount=\"1\"><brk "
          "id=\"2\" max=\"1048575\" man=\"1\"/></colBreaks><pane xSplit=\"1\" ySplit=\"3\" "
          "topLeftCell=\"B4\" activePane=\"bottomRight\" state=\"frozen\"/><sheetProtection "
          "sheet=\"1\" objects=\"1\" scenarios=\"1\" formatColumns=\"0\" formatRows=\"0\" "
          "autoFilter=\"0\"/>");
    CHECK(names() == "<definedNames><definedName name=\"_xlnm.Print_Titles\" "
                     "localSheetId=\"0\">One!$A:$A,One!$3:$3</definedName></definedNames>");
    sheet.widths = {20, 10, 2'000}; // never smaller than a tenth
    CHECK(element(sheet_of(sheet), "pageSetup") ==
          "<pageSetup paperSize=\"1\" scale=\"10\" orientation=\"landscape\"/>");
    sheet.widths = {20, 10, 10}; // never larger than it is
    CHECK(element(sheet_of(sheet), "pageSetup") ==
          "<pageSetup paperSize=\"1\" orientation=\"landscape\"/>");
    CHECK(element(sheet_of(sheet), "cols") ==
          "<cols><col min=\"1\" max=\"1\" width=\"20.7109375\" customWidth=\"1\"/><col min=\"2\" "
          "max=\"2\" width=\"10.7109375\" customWidth=\"1\"/><col min=\"3\" max=\"3\" "
          "width=\"10.7109375\" customWidth=\"1\"/></cols>");
}

TEST_CASE("a row is as high as its longest text takes") {
    const auto height = [](Look look, std::size_t letters, double width = 20,
                           bool formula = false) {
        BookCell one = formula ? cell(CellKind::Formula, "=A1", NAN, std::string(letters, 'a'))
                               : cell(CellKind::Text, std::string(letters, 'a'));
        one.look = look;
        const std::string row = element(sheet_of({"", {width}, {one}, {}, {}}), "row");
        const std::size_t at = row.find("ht=\"");
        return at == std::string::npos ? std::string("one")
                                       : row.substr(at + 4, row.find('"', at + 4) - at - 4);
    };
    CHECK(height(Look::Wrapped, 23) == "one"); // 20 wide take 20 * 1.15 letters
    CHECK(height(Look::Wrapped, 24) == "30");
    CHECK(height(Look::Wrapped, 46) == "30");
    CHECK(height(Look::Wrapped, 47) == "45");
    CHECK(height(Look::Heading, 47) == "45");
    CHECK(height(Look::FigureHeading, 47) == "45");
    CHECK(height(Look::Plain, 47) == "one");
    CHECK(height(Look::Small, 29) == "one"); // 20 * 1.45, in three quarters of the height
    CHECK(height(Look::Small, 30) == "22.5");
    CHECK(height(Look::Wrapped, 47, 20, true) == "45");
    CHECK(height(Look::Wrapped, 16, 1) == "30"); // eight letters a line at least
    CHECK(height(Look::Wrapped, 10'000) == "375");
}

TEST_CASE("what may be typed is bounded or one of a list, and red where it should be") {
    BookSheet sheet{"", {10, 10}, {cell(CellKind::Number, "", 1)}, {}, {}};
    sheet.rules = {{2, 1, "=1", "=5", ""}, {3, 1, "", "", "=$D$1:$D$3"}};
    sheet.red = {{1, 0, 4, 1, "$A2>1"}};
    const std::string xml = sheet_of(sheet);
    CHECK(element(xml, "dataValidations") ==
          "<dataValidations count=\"2\"><dataValidation type=\"decimal\" showInputMessage=\"1\" "
          "showErrorMessage=\"1\" errorTitle=\"Not this value\" error=\"It is outside the allowed "
          "range beside it.\" "
          "sqref=\"B3\"><formula1>1</formula1><formula2>5</formula2></"
          "dataValidation><dataValidation type=\"list\" showInputMessage=\"1\" "
          "showErrorMessage=\"1\" errorTitle=\"Not this value\" error=\"Take one of the list.\" "
          "sqref=\"B4\"><formula1>$D$1:$D$3</formula1></dataValidation></dataValidations>");
    CHECK(element(xml, "conditionalFormatting") ==
          "<conditionalFormatting sqref=\"A2:B5\"><cfRule type=\"expression\" dxfId=\"0\" "
          "priority=\"1\"><formula>$A2&gt;1</formula></cfRule></conditionalFormatting>");
    CHECK(
        element(part(book_of(sheet), "xl/styles.xml"), "dxfs") ==
        "<dxfs count=\"1\"><dxf><font><color rgb=\"FFC00000\"/></font><fill><patternFill><bgColor "
        "rgb=\"FFFBE3E1\"/></patternFill></fill></dxf></dxfs>");
}

TEST_CASE("title, day and names of a workbook stand in it") {
    engine::Workbook book = book_of({"", {10}, {cell(CellKind::Number, "", 1)}, {}, {}});
    book.names = {{"area", "=One!$A$1"}};
    book.day = 20'625; // June 21, 2026
    CHECK(element(part(book, "docProps/core.xml"), "dcterms:created") ==
          "<dcterms:created xsi:type=\"dcterms:W3CDTF\">2026-06-21T00:00:00Z</dcterms:created>");
    CHECK(element(part(book, "docProps/core.xml"), "dc:title") == "<dc:title>Meadow</dc:title>");
    CHECK(element(part(book, "xl/workbook.xml"), "definedNames") ==
          "<definedNames><definedName name=\"area\">One!$A$1</definedName></definedNames>");
    CHECK(element(part(book, "xl/workbook.xml"), "sheets") ==
          "<sheets><sheet name=\"One\" sheetId=\"1\" r:id=\"rId1\"/></sheets>");
    book.day.reset();
    CHECK(element(part(book, "docProps/core.xml"), "dcterms:created") ==
          "<dcterms:created xsi:type=\"dcterms:W3CDTF\">1980-01-01T00:00:00Z</dcterms:created>");
    book.title = std::string(255, 'a');
    CHECK(element(part(book, "docProps/core.xml"), "dc:title").size() == 255 + 21);
    book.title += "b";
    CHECK(element(part(book, "docProps/core.xml"), "dc:title") ==
          "<dc:title>" + std::string(252, 'a') + "…</dc:title>");
}

TEST_CASE("what a spreadsheet cannot hold is refused, and says so") {
    const auto refused = [](const BookCell& one) {
        const lang::Outcome<std::string> bytes = cli::xlsx_of(book_of({"", {10}, {one}, {}, {}}));
        return bytes ? std::string("made") : bytes.said.diagnostics.all().front().notes.front();
    };
    BookCell one = cell(CellKind::Number, "", 1);
    one.row = 1'048'575;
    one.column = 16'383;
    CHECK(refused(one) == "made");
    one.row = 1'048'576;
    CHECK(refused(one) == "Worksheet row or column index out of range.");
    CHECK(refused(cell(CellKind::Text, std::string(40'000, 'a'))) ==
          "made"); // cut to what it holds
}

TEST_CASE("words of a stranger are words in a cell") {
    CHECK(cli::cell_words("_x0041_") == "_x005F_x0041_");
    CHECK(cli::cell_words("_X00fF_b") == "_x005F_X00fF_b");
    CHECK(cli::cell_words("a_x0041") == "a_x0041");
    CHECK(cli::cell_words("_x004g_") == "_x004g_");
    CHECK(cli::cell_words("_y0041_") == "_y0041_");
    CHECK(cli::cell_words("abcd", 4) == "abcd");
    CHECK(cli::cell_words("abcde", 4) == "a…");
    CHECK(cli::cell_words("aäbcd", 5) == "a…"); // a letter of two bytes is not cut in two
}

} // namespace xlsx_test
