#include "input/text/text_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace flattail::input {

namespace {

namespace fs = std::filesystem;

// Characters are counted once per block, so that a place costs at most one block.
constexpr std::size_t kBlockBytes = 512;

bool is_continuation(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// Bytes of the UTF-8 character that starts here, or 0 when it is none.
// Source: Unicode Standard 15, table 3-7, well-formed byte sequences.
std::size_t measure_character(std::string_view text) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
    };
    const auto within = [&](std::size_t i, unsigned low, unsigned high) {
        return byte(i) >= low && byte(i) <= high;
    };
    const unsigned lead = byte(0);
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return within(1, 0x80, 0xBF) ? 2 : 0;
    if (lead >= 0xE0 && lead <= 0xEF) {
        const bool second =
            within(1, lead == 0xE0 ? 0xA0 : 0x80, lead == 0xED ? 0x9F : 0xBF);
        return second && within(2, 0x80, 0xBF) ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const bool second =
            within(1, lead == 0xF0 ? 0x90 : 0x80, lead == 0xF4 ? 0x8F : 0xBF);
        return second && within(2, 0x80, 0xBF) && within(3, 0x80, 0xBF) ? 4 : 0;
    }
    return 0;
}

// Offset of the first byte that belongs to no UTF-8 character, or the size.
std::size_t find_bad_byte(std::string_view text) {
    std::size_t i = 0;
    while (i < text.size()) {
        const std::size_t length = measure_character(text.substr(i));
        if (length == 0) break;
        i += length;
    }
    return i;
}

// A file beside the missing one with the same ending and almost the same name, or "".
std::string find_similar_file(const fs::path& path) {
    constexpr std::size_t kMostFiles = 2000;  // a folder larger than this is not searched
    std::error_code error;
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    std::vector<std::string> stems;
    std::size_t files = 0;
    for (fs::directory_iterator it(folder, error), end; !error && it != end;
         it.increment(error)) {
        if (++files > kMostFiles) return "";
        const fs::path& other = it->path();
        if (other.extension() == path.extension()) stems.push_back(other.stem().string());
    }
    std::sort(stems.begin(), stems.end());
    const std::string stem = base::find_nearest_name(path.stem().string(), stems);
    return stem.empty() ? stem : stem + path.extension().string();
}

// "0.3 MB", enough to compare with a limit.
std::string format_megabytes(std::size_t bytes) {
    return fmt::format("{:g} MB", static_cast<double>(bytes) / 1e6);
}

void report_missing(const std::string& path, const Place& place,
                    base::ProblemList& problems) {
    const std::string similar = find_similar_file(path);
    problems.add_error(
        place, fmt::format("cannot read {} (no such file)", path),
        similar.empty() ? std::string("check the name and the folder")
                        : fmt::format("check the name: {} is in that folder", similar));
}

std::optional<std::string> read_bytes(const std::string& path, std::size_t max_bytes,
                                      const Place& place, base::ProblemList& problems) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) {
        report_missing(path, place, problems);
        return std::nullopt;
    }
    if (fs::is_directory(status)) {
        problems.add_error(place, fmt::format("cannot read {} (it is a folder)", path),
                           "name a file inside it");
        return std::nullopt;
    }
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    std::string text(std::min<std::size_t>(max_bytes + 1, std::size_t{1} << 16U), '\0');
    std::size_t filled = 0;
    while (file) {
        if (filled == text.size()) {
            if (filled > max_bytes) break;
            text.resize(std::min(max_bytes + 1, 2 * text.size()));
        }
        file.read(text.data() + filled,
                  static_cast<std::streamsize>(text.size() - filled));
        filled += static_cast<std::size_t>(file.gcount());
    }
    text.resize(filled);
    if (file.is_open() && !file.bad()) return text;
    const int reason = errno != 0 ? errno : EIO;
    problems.add_error(
        place,
        fmt::format("cannot read {} ({})", path, std::generic_category().message(reason)),
        "check that you may read it");
    return std::nullopt;
}

}  // namespace

std::optional<TextFile> check_text(std::string text, const std::string& name,
                                   std::size_t max_bytes, base::ProblemList& problems) {
    if (text.size() > max_bytes) {
        problems.add_error({name, 0, 0},
                           fmt::format("is larger than {}, the most that is read here",
                                       format_megabytes(max_bytes)),
                           "check that it is the right file, or cut it down");
        return std::nullopt;
    }
    if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
    const TextPlaces places(text, name);
    const std::size_t zero = text.find('\0');
    if (zero != std::string::npos) {
        problems.add_error(places.at(zero),
                           "holds a zero byte (it is not a plain text file)",
                           "save it as text with encoding UTF-8");
        return std::nullopt;
    }
    const std::size_t bad = find_bad_byte(text);
    if (bad < text.size()) {
        problems.add_error(places.at(bad),
                           fmt::format("byte 0x{:02X} is not UTF-8 (an older encoding?)",
                                       static_cast<unsigned char>(text[bad])),
                           "save the file with encoding UTF-8");
        return std::nullopt;
    }
    return TextFile{name, std::move(text)};
}

std::optional<TextFile> read_text_file(const std::string& path, std::size_t max_bytes,
                                       base::ProblemList& problems,
                                       const Place& asked_at) {
    const Place place = asked_at.file.empty() ? Place{path, 0, 0} : asked_at;
    std::optional<std::string> bytes = read_bytes(path, max_bytes, place, problems);
    if (!bytes) return std::nullopt;
    return check_text(std::move(*bytes), path, max_bytes, problems);
}

TextPlaces::TextPlaces(std::string_view text, std::string name)
    : text_(text), name_(std::move(name)), line_starts_{0} {
    std::size_t characters = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i % kBlockBytes == 0) characters_before_block_.push_back(characters);
        if (!is_continuation(text[i])) ++characters;
        if (text[i] == '\n') line_starts_.push_back(i + 1);
    }
    characters_before_block_.push_back(characters);
}

// Characters that start before this byte.
std::size_t TextPlaces::count_characters(std::size_t offset) const {
    const std::size_t block = offset / kBlockBytes;
    std::size_t characters = characters_before_block_[block];
    for (std::size_t i = block * kBlockBytes; i < offset; ++i) {
        if (!is_continuation(text_[i])) ++characters;
    }
    return characters;
}

Place TextPlaces::at(std::size_t offset) const {
    offset = std::min(offset, text_.size());
    const auto next = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
    const std::size_t column =
        count_characters(offset) - count_characters(*(next - 1)) + 1;
    return {name_, static_cast<int>(next - line_starts_.begin()),
            static_cast<int>(column)};
}

std::string_view TextPlaces::line(int number) const {
    if (number < 1 || static_cast<std::size_t>(number) > line_starts_.size()) return {};
    const std::size_t start = line_starts_[static_cast<std::size_t>(number) - 1];
    std::string_view rest = text_.substr(start);
    rest = rest.substr(0, rest.find('\n'));
    if (rest.ends_with('\r')) rest.remove_suffix(1);
    return rest;
}

std::string_view trim(std::string_view text) {
    constexpr std::string_view kBlanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kBlanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::string to_lower(std::string_view text) {
    std::string lower(text);
    for (char& c : lower) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return lower;
}

}  // namespace flattail::input
