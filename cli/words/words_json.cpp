#include "cli/shared/json/value.h"
#include "cli/words/words_page.h"

namespace acre::cli {

Document words_json(const std::vector<lang::WordPage>& pages) {
    Json json;
    json["schema"] = "acrewright.words/1";
    json["pages"] = Json::array();
    for (const lang::WordPage& page : pages)
        json["pages"].push_back(
            {{"words", page.words},
             {"summary", page.summary},
             {"forms", page.forms},
             {"meaning", page.meaning},
             {"example", {{"kind", page.example.kind}, {"text", page.example.text}}}});
    return answered(std::move(json));
}

} // namespace acre::cli
