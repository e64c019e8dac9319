// Optimal string alignment distance and the sentence made of it.
#include <algorithm>

#include <likelihet/colony/nearest.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

namespace {

constexpr std::size_t longest_compared = 200;
constexpr std::size_t most_candidates_listed = 8;

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

// Rows of the alignment table, kept between candidates to spare allocations.
class Alignment {
 public:
  explicit Alignment(std::string_view word) : word_(lower_case(word)) {
    for (auto* row : {&before_, &last_, &now_}) row->resize(word_.size() + 1);
  }

  // The distance to `other`, or nothing as soon as it must exceed `limit`.
  std::optional<std::size_t> distance(std::string_view other, std::size_t limit) {
    const std::string text = lower_case(other);
    const std::size_t apart =
        text.size() > word_.size() ? text.size() - word_.size() : word_.size() - text.size();
    if (apart > limit) return std::nullopt;
    for (std::size_t i = 0; i <= word_.size(); ++i) last_[i] = i;
    for (std::size_t j = 1; j <= text.size(); ++j) {
      fill_row(text, j);
      if (*std::min_element(now_.begin(), now_.end()) > limit &&
          *std::min_element(last_.begin(), last_.end()) > limit) {
        return std::nullopt;
      }
      std::swap(before_, last_);
      std::swap(last_, now_);
    }
    if (last_.back() > limit) return std::nullopt;
    return last_.back();
  }

 private:
  // Rows of the table of Levenshtein 1966; a swap steps back two rows and two columns.
  void fill_row(const std::string& text, std::size_t j) {
    now_[0] = j;
    for (std::size_t i = 1; i <= word_.size(); ++i) {
      const bool same = word_[i - 1] == text[j - 1];
      now_[i] = std::min({now_[i - 1] + 1, last_[i] + 1, last_[i - 1] + (same ? 0U : 1U)});
      if (i > 1 && j > 1 && word_[i - 1] == text[j - 2] && word_[i - 2] == text[j - 1]) {
        now_[i] = std::min(now_[i], before_[i - 2] + 1);
      }
    }
  }

  std::string word_;
  std::vector<std::size_t> before_, last_, now_;
};

}  // namespace

std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates) {
  if (word.size() > longest_compared) return std::nullopt;
  Alignment alignment(word);
  const std::string* best = nullptr;
  std::size_t best_distance = longest_compared;
  for (const std::string& candidate : candidates) {
    if (candidate.size() > longest_compared) continue;
    const std::size_t third = (std::max(word.size(), candidate.size()) + 2) / 3;
    const auto distance = alignment.distance(candidate, std::min(third, best_distance));
    if (!distance) continue;
    if (best == nullptr || *distance < best_distance || candidate < *best) {
      best = &candidate;
      best_distance = *distance;
    }
  }
  if (best == nullptr) return std::nullopt;
  return *best;
}

std::string suggestion(std::string_view word, const std::vector<std::string>& candidates) {
  if (candidates.empty()) return "none is known";
  if (const auto near = nearest(word, candidates)) return "did you mean " + in_quotes(*near) + "?";
  return "known are " + listed(candidates, most_candidates_listed);
}

}  // namespace likelihet::colony
