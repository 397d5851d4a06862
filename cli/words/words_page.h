// The words of the notation as a page and as JSON.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "lang/syntax/word_page.h"

namespace acre::cli {

std::string words_text(const std::vector<lang::WordPage>& pages, bool color); // one line each
std::string word_text(const lang::WordPage& page, bool color);
Document words_json(const std::vector<lang::WordPage>& pages);

} // namespace acre::cli
