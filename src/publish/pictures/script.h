// gnuplot scripts: settings in front, the template of the picture behind.
#pragma once

#include <string>
#include <vector>

namespace flattail::publish {

/// Text as a gnuplot string constant, whatever it holds.
std::string quote_gnuplot(const std::string& text);

/// The settings in front of a template, one a line.
class ScriptSettings {
  public:
    explicit ScriptSettings(const std::string& title);
    void set(const std::string& name, double value);
    void set(const std::string& name, const std::string& text);
    void set(const std::string& name, const std::vector<double>& values);
    void set(const std::string& name, const std::vector<std::string>& texts);
    /// "'2:30' 9000, '2:35' 9300", for `set xtics`; NAME_BARE has the places alone.
    void set_ticks(const std::string& name, const std::vector<std::string>& labels,
                   const std::vector<double>& places);
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

/// A whole script: settings, what all pictures share, the picture itself. `gnuplot -e
/// "phone=1" NAME.gp` draws it for a phone, "dark=1" in light ink on a dark page.
std::string write_script(const ScriptSettings& settings,
                         const std::string& template_name);

}  // namespace flattail::publish
