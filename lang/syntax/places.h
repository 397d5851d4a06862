// Which statement may stand where.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "lang/source/source_map.h"
#include "lang/syntax/assemble.h"
#include "lang/syntax/words.h"

namespace acre::lang {

enum Place : std::uint32_t {
    InModel = 1U << 0U,
    InLibrary = 1U << 1U,
    InSeason = 1U << 2U,
    InJob = 1U << 3U,
    InCommand = 1U << 4U,
    InPart = 1U << 5U,
    InPrice = 1U << 6U,
    InTable = 1U << 7U,
    InDefine = 1U << 8U,
    InOption = 1U << 9U,
    InEntry = 1U << 10U,
    InValues = 1U << 11U,
    InFirm = 1U << 12U
};

struct Permit {
    Keyword head;
    Form form;
    std::uint32_t places;
};

// Of a word that begins statements; None: of a line that begins with a name. Null: it begins none,
// or only a file.
const Permit* permit_of(Keyword head);

Place place_in(FileKind kind);
Place place_in(Keyword parent); // below a statement that has inner lines

std::string name_of_place(Place place);           // "in a part"
std::string list_of_places(std::uint32_t places); // "in a model, in a part or in a library"

// Whether a statement may begin with the word in such a file, below a statement that begins with
// `above` (None: below none), after the first statement of the file.
bool may_begin(Keyword head, FileKind kind, Keyword above);
// Whether the first statement of such a file may begin with it.
bool may_begin_file(Keyword head, FileKind kind);

} // namespace acre::lang
