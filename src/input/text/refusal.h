// Why a text could not be read: the two halves of a problem whose place the caller knows.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace flattail::input {

struct Refusal {
    std::string what;  ///< reads on after "mass: "
    std::string
        hint;  ///< what to write instead; with an example it follows after a comma
    std::string
        example;  ///< a value that would be understood, without quotes; may be empty
};

/// The hint for a value under `key`: `write mass = "70 kg", or with g, lb, oz`.
std::string format_hint(const Refusal& refusal, std::string_view key);

/// A value, or the reason why there is none.
template <class T>
class Parsed {
  public:
    Parsed(T value) : value_(std::move(value)) {}
    Parsed(Refusal refusal) : refusal_(std::move(refusal)) {}

    explicit operator bool() const { return value_.has_value(); }
    const T& operator*() const { return *value_; }
    const T* operator->() const { return &*value_; }
    /// Empty when there is a value.
    const Refusal& refusal() const { return refusal_; }

  private:
    std::optional<T> value_;
    Refusal refusal_;
};

}  // namespace flattail::input
