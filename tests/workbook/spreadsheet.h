// Workbooks worked out by programs of others: LibreOffice, and Gnumeric's converter. Each sheet
// comes back as CSV with full figures.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/log/csv_table.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {

// The cells of one sheet, as text.
class SheetCells {
  public:
    SheetCells() = default;
    explicit SheetCells(const std::string& csv) {
        // Blank lines are no rows to the reader, and here each row has its number.
        std::string line;
        bool quoted = false;
        for (const char c : csv) {
            quoted ^= c == '"';
            if (c == '\n' && !quoted) {
                rows_.push_back(cells(line));
                line.clear();
            } else if (c != '\r') {
                line += c;
            }
        }
        if (!line.empty())
            rows_.push_back(cells(line));
    }

    std::string text(std::size_t row, std::size_t column) const {
        return row < rows_.size() && column < rows_[row].size() ? rows_[row][column] : "";
    }
    // None: an error, a text, or nothing.
    std::optional<double> number(std::size_t row, std::size_t column) const {
        const std::string is = text(row, column);
        double value = 0;
        const auto [end, error] = std::from_chars(is.data(), is.data() + is.size(), value);
        return error == std::errc() && end == is.data() + is.size() ? std::optional(value)
                                                                    : std::nullopt;
    }
    std::size_t size() const { return rows_.size(); }

  private:
    static std::vector<std::string> cells(const std::string& line) {
        std::vector<std::string> out;
        for (const engine::CsvRow& row : engine::read_csv(line + "\n", 0, 10, 10'000).rows)
            for (const engine::CsvCell& cell : row)
                out.push_back(cell.text);
        return out;
    }
    std::vector<std::vector<std::string>> rows_;
};

using BookCells = std::map<std::string, SheetCells>; // by sheet

// A command is there.
inline bool has_program(const std::string& name) {
    return std::system(("command -v " + name + " >/dev/null 2>&1").c_str()) == 0;
}

inline std::map<std::string, BookCells> cells_in(const std::string& folder) {
    std::map<std::string, BookCells> books;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().stem().string();
        const auto dash = name.find('-');
        if (entry.path().extension() == ".csv" && dash != std::string::npos)
            books[name.substr(0, dash)][name.substr(dash + 1)] =
                SheetCells(file_text(entry.path().string()));
    }
    return books;
}

inline std::vector<std::string> workbooks_in(const std::string& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".xlsx")
            names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

// It gives up on some hundreds in one go.
inline constexpr std::size_t most_in_one_go = 60;

// All .xlsx of `folder`, recalculated by LibreOffice: the cells by the name of the file, which has
// no dash, and of the sheet. `as_shown`: as somebody would save them by hand.
inline std::map<std::string, BookCells> by_libreoffice(const std::string& folder,
                                                       bool as_shown = false) {
    const std::string profile = folder + "/profile";
    std::filesystem::create_directories(profile + "/user");
    // Always recalculates what it loads.
    std::ofstream(profile + "/user/registrymodifications.xcu")
        << R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>)";
    const std::string filter = std::string("csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,") +
                               (as_shown ? "true" : "false") + ",false,false,false,-1";
    const std::string out = folder + "/csv";
    const std::vector<std::string> names = workbooks_in(folder);
    for (std::size_t first = 0; first < names.size(); first += most_in_one_go) {
        std::string files;
        for (std::size_t i = first; i < std::min(first + most_in_one_go, names.size()); ++i)
            files += " '" + names[i] + "'";
        const std::string command = "cd '" + folder + "' && soffice -env:UserInstallation=file://" +
                                    profile + " --headless --convert-to '" + filter +
                                    "' --outdir '" + out + "'" + files + " >'" + folder +
                                    "/said' 2>&1";
        REQUIRE_MESSAGE(std::system(command.c_str()) == 0, file_text(folder + "/said"));
    }
    return cells_in(out);
}

inline std::map<std::string, BookCells> by_gnumeric(const std::string& folder) {
    const std::string out = folder + "/stf";
    std::filesystem::create_directories(out);
    for (const std::string& file : workbooks_in(folder)) {
        const std::string name = std::filesystem::path(file).stem().string();
        const std::string command = "cd '" + folder +
                                    "' && ssconvert -S --recalc "
                                    "--export-type=Gnumeric_stf:stf_assistant "
                                    "-O 'separator=, format=raw quoting-mode=auto' '" +
                                    file + "' '" + out + "/" + name + "-%s.csv' >'" + folder +
                                    "/said' 2>&1";
        REQUIRE_MESSAGE(std::system(command.c_str()) == 0, file_text(folder + "/said"));
    }
    return cells_in(out);
}

} // namespace acre::tests
