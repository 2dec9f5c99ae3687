#include "publish/pages/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <set>

namespace flattail::publish {

namespace {

constexpr const char* kEllipsis = "\xE2\x80\xA6";

struct Character {
    char32_t code = 0;
    std::size_t bytes = 1;
    bool is_valid = false;
};

// How many bytes a character has, by its first byte (RFC 3629); 0 for none.
std::size_t count_bytes(unsigned char first) {
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first < 0xE0) return 2;
    if (first >= 0xE0 && first < 0xF0) return 3;
    if (first >= 0xF0 && first < 0xF5) return 4;
    return 0;
}

// Too long for its value, a surrogate, or past the last character (RFC 3629, section 3).
bool is_forbidden(char32_t code, std::size_t bytes) {
    constexpr std::array<char32_t, 5> kFirstOfLength{0, 0, 0x80, 0x800, 0x10000};
    return code < kFirstOfLength[bytes] || code > 0x10FFFF ||
           (code >= 0xD800 && code < 0xE000);
}

Character read_character(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    const std::size_t bytes = count_bytes(first);
    if (bytes == 1) return {first, 1, true};
    if (bytes == 0 || at + bytes > text.size()) return {};
    char32_t code = first & (0xFFu >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto next = static_cast<unsigned char>(text[at + i]);
        if ((next & 0xC0u) != 0x80u) return {};
        code = (code << 6) | (next & 0x3Fu);
    }
    if (is_forbidden(code, bytes)) return {};
    return {code, bytes, true};
}

struct Block {
    char32_t first, last;
};

template <std::size_t kCount>
bool lies_in(char32_t code, const std::array<Block, kCount>& blocks) {
    return std::any_of(blocks.begin(), blocks.end(), [code](const Block& block) {
        return code >= block.first && code <= block.last;
    });
}

// UAX 11, classes W and F, by blocks.
constexpr std::array<Block, 13> kWide{{{0x1100, 0x115F},
                                       {0x2E80, 0x303E},
                                       {0x3041, 0x33FF},
                                       {0x3400, 0x4DBF},
                                       {0x4E00, 0x9FFF},
                                       {0xA000, 0xA4CF},
                                       {0xAC00, 0xD7A3},
                                       {0xF900, 0xFAFF},
                                       {0xFE30, 0xFE6F},
                                       {0xFF00, 0xFF60},
                                       {0xFFE0, 0xFFE6},
                                       {0x1F300, 0x1FAFF},
                                       {0x20000, 0x3FFFD}}};
// Combining marks, joiners and variation selectors (UAX 44, categories Mn, Me and Cf).
constexpr std::array<Block, 6> kZeroWidth{{{0x0300, 0x036F},
                                           {0x1AB0, 0x1AFF},
                                           {0x1DC0, 0x1DFF},
                                           {0x200B, 0x200F},
                                           {0x20D0, 0x20FF},
                                           {0xFE00, 0xFE0F}}};
// Controls, and marks that turn the direction of a line (UAX 9).
constexpr std::array<Block, 5> kControls{{{0x0000, 0x001F},
                                          {0x007F, 0x009F},
                                          {0x2028, 0x202E},
                                          {0x2066, 0x2069},
                                          {0xFEFF, 0xFEFF}}};

int width_of(char32_t code) {
    if (lies_in(code, kZeroWidth)) return 0;
    return lies_in(code, kWide) ? 2 : 1;
}

// The longest beginning of at most `width` columns.
std::string take_start(const std::string& text, int width) {
    std::size_t at = 0;
    int used = 0;
    while (at < text.size()) {
        const Character character = read_character(text, at);
        used += width_of(character.code);
        if (used > width) break;
        at += character.bytes;
    }
    return text.substr(0, at);
}

// The longest end of at most `width` columns.
std::string take_end(const std::string& text, int width) {
    int excess = measure_width(text) - width;
    std::size_t at = 0;
    while (at < text.size()) {
        const Character character = read_character(text, at);
        if (excess <= 0 && width_of(character.code) > 0) break;
        excess -= width_of(character.code);
        at += character.bytes;
    }
    return text.substr(at);
}

bool all_differ(const std::vector<std::string>& names) {
    return std::set<std::string>(names.begin(), names.end()).size() == names.size();
}

// Cuts `word` into pieces of at most `width` columns.
std::vector<std::string> cut_word(std::string word, int width) {
    std::vector<std::string> pieces;
    while (measure_width(word) > width) {
        pieces.push_back(take_start(word, std::max(width, 2)));
        word.erase(0, pieces.back().size());
    }
    pieces.push_back(std::move(word));
    return pieces;
}

std::vector<std::string> split_words(const std::string& text, int width) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        if (end > at) {
            for (std::string& piece : cut_word(text.substr(at, end - at), width)) {
                words.push_back(std::move(piece));
            }
        }
        at = end + 1;
    }
    return words;
}

}  // namespace

std::string clean_line(std::string_view text) {
    std::string clean;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = read_character(text, at);
        if (text[at] == '\n' || text[at] == '\r' || text[at] == '\t') {
            clean += ' ';
        } else if (!character.is_valid || lies_in(character.code, kControls)) {
            clean += '?';
        } else {
            clean += text.substr(at, character.bytes);
        }
        at += character.bytes;
    }
    return clean;
}

std::string upper_ascii(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](char c) {
        return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    });
    return text;
}

int measure_width(std::string_view text) {
    int width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = read_character(text, at);
        width += width_of(character.code);
        at += character.bytes;
    }
    return width;
}

std::string shorten_end(const std::string& text, int width) {
    if (measure_width(text) <= width) return text;
    return take_start(text, width - 1) + kEllipsis;
}

std::string shorten_middle(const std::string& text, int width) {
    if (measure_width(text) <= width) return text;
    const int end_width = (width - 1) / 2;
    return take_start(text, width - 1 - end_width) + kEllipsis +
           take_end(text, end_width);
}

std::vector<std::string> shorten_names(const std::vector<std::string>& names, int width) {
    std::vector<std::string> shortened;
    for (const std::string& name : names) shortened.push_back(shorten_end(name, width));
    if (all_differ(shortened) || !all_differ(names)) return shortened;
    for (std::size_t i = 0; i < names.size(); ++i) {
        shortened[i] = shorten_middle(names[i], width);
    }
    if (all_differ(shortened)) return shortened;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string number = fmt::format("{} ", i + 1);
        shortened[i] = number + shorten_middle(names[i], width - measure_width(number));
    }
    return shortened;
}

std::string pad_end(std::string text, int width) {
    const int missing = width - measure_width(text);
    if (missing > 0) text.append(static_cast<std::size_t>(missing), ' ');
    return text;
}

std::string pad_start(const std::string& text, int width) {
    const int missing = width - measure_width(text);
    return missing > 0 ? std::string(static_cast<std::size_t>(missing), ' ') + text
                       : text;
}

std::vector<std::string> wrap(const std::string& text, int width,
                              const std::string& head) {
    const int indent = measure_width(head);
    const int room = std::max(width - indent, 2);
    std::vector<std::string> lines;
    std::string line;
    for (const std::string& word : split_words(text, room)) {
        const int joined = measure_width(line) + 1 + measure_width(word);
        if (!line.empty() && joined > room) {
            lines.push_back(std::move(line));
            line = word;
        } else {
            line += (line.empty() ? "" : " ") + word;
        }
    }
    lines.push_back(std::move(line));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        lines[i] = i == 0 ? head + lines[i] : pad_end("", indent) + lines[i];
    }
    return lines;
}

}  // namespace flattail::publish
