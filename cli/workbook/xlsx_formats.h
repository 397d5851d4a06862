// How cells of a workbook look, each look made once a file.
#pragma once

#include <map>
#include <string>
#include <utility>

#include "cli/workbook/xlsx_library.h"
#include "engine/workbook/workbook.h"

namespace acre::cli {

class Formats {
  public:
    explicit Formats(lxw_workbook* book) : book_(book) {}

    lxw_format* of(engine::Look look, const std::string& number);
    lxw_format* red_figure();

  private:
    lxw_format* make(engine::Look look, const std::string& number);

    lxw_workbook* book_;
    std::map<std::pair<engine::Look, std::string>, lxw_format*> made_;
};

} // namespace acre::cli
