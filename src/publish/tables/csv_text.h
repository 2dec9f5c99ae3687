// CSV text as RFC 4180 has it.
#pragma once

#include <string>
#include <vector>

namespace flattail::publish {

/// A field as it stands in a row: quoted where a reader would otherwise lose something.
std::string quote_field(const std::string& text);

/// The shortest decimal that reads back to the same bits; never "-0".
/// Errors: OurMistake when it is not finite
std::string csv_number(double value);

/// The same for a finish time: "no finish" when it is infinite.
std::string csv_time(double time_s);

/// The same, empty where there is no number.
std::string csv_optional(double value);

/// Rows of fields under a header, with CRLF line ends.
class CsvText {
  public:
    explicit CsvText(const std::vector<std::string>& header);
    /// As many fields as the header has.
    void add_row(const std::vector<std::string>& fields);
    const std::string& text() const { return text_; }

  private:
    void append(const std::vector<std::string>& fields);
    std::string text_;
    std::size_t columns_;
};

}  // namespace flattail::publish
