// The constants by name.
#include <doctest/doctest.h>

#include <map>

#include "cli/command.h"
#include "cli/editor/messages.h"
#include "cli/grid/grid_page.h"
#include "cli/module/session.h"
#include "cli/page/collect.h"
#include "cli/risk/risk_page.h"
#include "cli/season/kept_messages.h"
#include "cli/shared/chart/heat_map.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_page/wording.h"
#include "cli/shared/typed_lines.h"
#include "engine/billing/posted.h"
#include "engine/book/canonical.h"
#include "engine/field/boundary.h"
#include "engine/field/layout.h"
#include "engine/job/job_dates.h"
#include "engine/log/job_log.h"
#include "engine/plan/compile_plan.h"
#include "engine/plan/effort.h"
#include "engine/plan/node_compiler.h"
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/bridge/shapley.h"
#include "engine/questions/check_season.h"
#include "engine/questions/compare/compare.h"
#include "engine/questions/rate_card.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/risk/risk.h"
#include "engine/questions/season/chain.h"
#include "engine/questions/season/order_search.h"
#include "engine/questions/season/season_jobs.h"
#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"
#include "engine/questions/what_if/sensitivity.h"
#include "engine/workbook/workbook.h"
#include "lang/compile.h"
#include "lang/syntax/parse.h"
#include "lang/units/unit.h"
#include "tests/limits/limits.h"

namespace acre::tests {
namespace {

using namespace acre::lang;
using namespace acre::engine;
using namespace acre::cli;

#define ACRE_LIMIT(name)                                                                           \
    { #name, static_cast < std::uint64_t>(name) }
constexpr std::size_t max_steps = NodeCompiler::max_steps;
const std::map<std::string, std::uint64_t> values = {
    ACRE_LIMIT(max_bases),
    ACRE_LIMIT(max_file_bytes),
    ACRE_LIMIT(max_statement_bytes),
    ACRE_LIMIT(max_name_bytes),
    ACRE_LIMIT(max_text_bytes),
    ACRE_LIMIT(max_number_bytes),
    ACRE_LIMIT(max_options),
    ACRE_LIMIT(max_page_words),
    ACRE_LIMIT(max_closed),
    ACRE_LIMIT(max_parameters),
    ACRE_LIMIT(max_listed),
    ACRE_LIMIT(max_inner_lines),
    ACRE_LIMIT(max_nesting),
    ACRE_LIMIT(max_formula_depth),
    ACRE_LIMIT(max_table_rows),
    ACRE_LIMIT(max_syntax_errors),
    ACRE_LIMIT(max_use_depth),
    ACRE_LIMIT(max_files),
    ACRE_LIMIT(max_program_bytes),
    ACRE_LIMIT(max_uses),
    ACRE_LIMIT(max_instances),
    ACRE_LIMIT(max_lists),
    ACRE_LIMIT(max_entries),
    ACRE_LIMIT(max_job_options),
    ACRE_LIMIT(max_parts),
    ACRE_LIMIT(max_conditions),
    ACRE_LIMIT(max_correlations),
    ACRE_LIMIT(max_sheet_lines),
    ACRE_LIMIT(max_sheet_nodes),
    ACRE_LIMIT(max_sheet_name_bytes),
    ACRE_LIMIT(max_plan_operations),
    ACRE_LIMIT(max_steps),
    ACRE_LIMIT(max_pulls),
    ACRE_LIMIT(max_boundary_depth),
    ACRE_LIMIT(max_boundaries_bytes),
    ACRE_LIMIT(max_season_faulty_bytes),
    ACRE_LIMIT(max_season_check_bytes),
    ACRE_LIMIT(max_log_rows),
    ACRE_LIMIT(max_boundary_vertices),
    ACRE_LIMIT(max_log_columns),
    ACRE_LIMIT(max_posted_rows),
    ACRE_LIMIT(max_record_depth),
    ACRE_LIMIT(max_crossings),
    ACRE_LIMIT(max_shared),
    ACRE_LIMIT(max_paired),
    ACRE_LIMIT(max_effort),
    ACRE_LIMIT(max_point_dimensions),
    ACRE_LIMIT(max_moved),
    ACRE_LIMIT(max_job_days),
    ACRE_LIMIT(max_calendar_days),
    ACRE_LIMIT(max_trials),
    ACRE_LIMIT(max_measured),
    ACRE_LIMIT(max_exact_players),
    ACRE_LIMIT(max_players),
    ACRE_LIMIT(max_grid_axes),
    ACRE_LIMIT(max_grid_cells),
    ACRE_LIMIT(max_grid_answers),
    ACRE_LIMIT(max_variants),
    ACRE_LIMIT(max_variant_nodes),
    ACRE_LIMIT(max_card_cells),
    ACRE_LIMIT(max_book_records),
    ACRE_LIMIT(max_record_bytes),
    ACRE_LIMIT(max_book_faults),
    ACRE_LIMIT(max_words),
    ACRE_LIMIT(max_message_bytes),
    ACRE_LIMIT(max_message_header),
    ACRE_LIMIT(max_typed_bytes),
    ACRE_LIMIT(max_word_bytes),
    ACRE_LIMIT(max_data_bytes),
    ACRE_LIMIT(max_table_cells),
    ACRE_LIMIT(max_wording_bytes),
    ACRE_LIMIT(max_page_bytes),
    ACRE_LIMIT(max_made_parts),
    ACRE_LIMIT(max_season_jobs),
    ACRE_LIMIT(max_season_steps),
    ACRE_LIMIT(max_kept_steps),
    ACRE_LIMIT(max_season_machines),
    ACRE_LIMIT(max_season_messages),
    ACRE_LIMIT(max_season_texts),
    ACRE_LIMIT(max_units),
    ACRE_LIMIT(max_planned_jobs),
    ACRE_LIMIT(max_plan_days),
    ACRE_LIMIT(max_plan_trials),
    ACRE_LIMIT(max_searched_jobs),
    ACRE_LIMIT(max_roads),
    ACRE_LIMIT(max_road_givens),
    ACRE_LIMIT(max_clashes),
    ACRE_LIMIT(max_doubles),
    ACRE_LIMIT(max_heat_cells),
    ACRE_LIMIT(max_columns),
    ACRE_LIMIT(max_workbook_options),
    ACRE_LIMIT(max_side_by_side),
    ACRE_LIMIT(max_threads),
    ACRE_LIMIT(max_page_jobs),
    ACRE_LIMIT(max_question_bytes),
};
#undef ACRE_LIMIT

} // namespace

std::uint64_t value_of(const std::string& name) {
    const auto it = values.find(name);
    REQUIRE_MESSAGE(it != values.end(), "no constant " << name);
    return it->second;
}

std::vector<std::string> constants() {
    std::vector<std::string> names;
    for (const auto& [name, value] : values)
        names.push_back(name);
    return names;
}

} // namespace acre::tests
