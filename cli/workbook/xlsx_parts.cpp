#include "cli/workbook/xlsx_parts.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "cli/workbook/xlsx_library.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_part_bytes = std::size_t{1} << 30U;
constexpr std::size_t end_size = 22, entry_size = 46, local_size = 30;

class Reader {
  public:
    explicit Reader(std::string_view bytes) : bytes_(bytes) {}

    std::optional<ZipParts> parts() const {
        // The end of the directory is the last thing in it: the writer adds no remark.
        if (bytes_.size() < end_size || number(bytes_.size() - end_size, 4) != 0x06054b50)
            return std::nullopt;
        const std::size_t end = bytes_.size() - end_size;
        const std::size_t count = number(end + 10, 2);
        std::size_t at = number(end + 16, 4);
        ZipParts parts;
        for (std::size_t i = 0; i < count; ++i) {
            if (at + entry_size > end || number(at, 4) != 0x02014b50)
                return std::nullopt;
            const std::size_t name_size = number(at + 28, 2);
            if (at + entry_size + name_size > end)
                return std::nullopt;
            std::optional<std::string> content = part(at);
            if (!content)
                return std::nullopt;
            parts.emplace_back(bytes_.substr(at + entry_size, name_size), std::move(*content));
            at += entry_size + name_size + number(at + 30, 2) + number(at + 32, 2);
        }
        return parts;
    }

  private:
    std::size_t number(std::size_t at, std::size_t size) const {
        std::size_t value = 0;
        for (std::size_t i = size; i-- > 0;)
            value = value << 8U | static_cast<unsigned char>(bytes_[at + i]);
        return value;
    }

    std::optional<std::string> part(std::size_t entry) const {
        const std::size_t method = number(entry + 10, 2);
        const std::size_t packed = number(entry + 20, 4), size = number(entry + 24, 4);
        const std::size_t local = number(entry + 42, 4);
        if (local + local_size > bytes_.size() || size > most_part_bytes)
            return std::nullopt;
        const std::size_t begin =
            local + local_size + number(local + 26, 2) + number(local + 28, 2);
        if (begin + packed > bytes_.size())
            return std::nullopt;
        const std::string_view content = bytes_.substr(begin, packed);
        if (method == 0)
            return std::string(content);
        return method == 8 ? inflated(content, size) : std::nullopt;
    }

    static std::optional<std::string> inflated(std::string_view packed, std::size_t size) {
        const XlsxLibrary* library = xlsx_library();
        if (library == nullptr)
            return std::nullopt;
        std::string out(size + 1, '\0'); // one more, so that there is always room
        z_stream stream{};
        // zlib's own signature takes what it reads as not const.
        stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
        stream.avail_in = static_cast<uInt>(packed.size());
        stream.next_out = reinterpret_cast<Bytef*>(out.data());
        stream.avail_out = static_cast<uInt>(out.size());
        constexpr int without_head = -15;
        if (library->inflateInit2_(&stream, without_head, ZLIB_VERSION, sizeof stream) != Z_OK)
            return std::nullopt;
        const bool whole = library->inflate(&stream, Z_FINISH) == Z_STREAM_END;
        library->inflateEnd(&stream);
        if (!whole || stream.total_out != size)
            return std::nullopt;
        out.resize(size);
        return out;
    }

    std::string_view bytes_;
};

} // namespace

std::optional<ZipParts> parts_of_zip(std::string_view bytes) {
    return Reader(bytes).parts();
}

} // namespace acre::cli
