#include "engine/log/csv_table.h"

#include <algorithm>
#include <memory>
#include <utility>

#include <csv.h>

namespace acre::engine {
namespace {

// libcsv knows no places; fed byte by byte, its calls tell them.
struct Reading {
    CsvTable table;
    CsvRow row;
    lang::FileId file = 0;
    std::uint32_t begin = 0, now = 0;
    std::size_t most_rows = 0, most_columns = 0;
};
void on_cell(void* text, std::size_t size, void* data) {
    auto& reading = *static_cast<Reading*>(data);
    if (reading.row.size() <= reading.most_columns) // one too many is enough to tell
        reading.row.push_back({std::string(static_cast<const char*>(text), size),
                               {reading.file, reading.begin, reading.now}});
    reading.begin = reading.now + 1;
}
void on_row(int, void* data) {
    auto& reading = *static_cast<Reading*>(data);
    const bool blank = std::all_of(reading.row.begin(), reading.row.end(),
                                   [](const CsvCell& cell) { return cell.text.empty(); });
    if (!blank) {
        if (reading.table.rows.size() > reading.most_rows)
            reading.table.too_many_rows = true;
        else
            reading.table.rows.push_back(std::move(reading.row));
    }
    reading.row.clear();
    reading.begin = reading.now + 1;
}

} // namespace

CsvTable read_csv(std::string_view text, lang::FileId file, std::size_t most_rows,
                  std::size_t most_columns, char between) {
    Reading reading;
    reading.file = file;
    reading.most_rows = most_rows;
    reading.most_columns = most_columns;
    csv_parser parser;
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
    const std::unique_ptr<csv_parser, void (*)(csv_parser*)> freed(&parser, csv_free);
    csv_set_delim(&parser, static_cast<unsigned char>(between));
    bool well_formed = true;
    for (const char c : text) {
        well_formed = csv_parse(&parser, &c, 1, on_cell, on_row, &reading) == 1;
        if (!well_formed || reading.table.too_many_rows)
            break;
        // The second half of a line end, and a blank line, are no part of the cell that follows.
        if (reading.begin == reading.now && (c == '\n' || c == '\r'))
            ++reading.begin;
        ++reading.now;
    }
    well_formed = well_formed && csv_fini(&parser, on_cell, on_row, &reading) == 0;
    reading.table.well_formed = well_formed;
    reading.table.end = {file, reading.now, reading.now};
    return std::move(reading.table);
}

char between_cells(std::string_view text) {
    const std::string_view first = text.substr(0, text.find('\n'));
    bool quoted = false, semicolon = false, tab = false;
    for (const char c : first) {
        quoted = quoted != (c == '"');
        if (!quoted && c == ',')
            return ',';
        semicolon = semicolon || (!quoted && c == ';');
        tab = tab || (!quoted && c == '\t');
    }
    return semicolon ? ';' : tab ? '\t' : ',';
}

} // namespace acre::engine
