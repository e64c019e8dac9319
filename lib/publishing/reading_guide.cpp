// How to read the report. Fixed text.
#include "sections.hpp"

namespace likelihet::publishing {

Markup reading_guide() {
  return section("reading", "How to read this", literal(R"(<dl>
<dt>Forecast</dt>
<dd>The chance of exactly one copy of an allele that the program gave on a day, from what had been recorded by the end of
that day. The outcome came out later, by a test, by breeding, by looks, or from relatives. A forecast is “of one
copy”, not of the trait being seen.</dd>
<dt>As it stood on the day; its own clutch left out</dt>
<dd>The first is what would have been said at the time. The second takes the forecast without anything learned from the
animal’s own clutch, so that a clutch can’t vouch for itself.</dd>
<dt>Reliability</dt>
<dd>Of a hundred animals called 30 %, some thirty should prove hets. That holds for many, never for one animal:
a single animal called 30 % that proves a carrier is no mistake.</dd>
<dt>Brier score and its parts</dt>
<dd>The mean squared distance between percentage and outcome. It falls with honest percentages (little miscalibration) and
with decided ones (much discrimination). Skill sets it against the pedigree’s.</dd>
<dt>Log score and bits</dt>
<dd>How surprised one would be. A coin’s worth of surprise is one bit; being sure and wrong costs many.</dd>
<dt>Intercept and slope</dt>
<dd>The intercept is taken with the slope held at 1: whether percentages are too high or too low on the whole. The slope
says whether they are too bold (below 1) or too timid (above 1).</dd>
<dt>AUC, and within clutches</dt>
<dd>The chance that a carrier was given the higher percentage than another animal. Between clutches the pedigree does most of
that; within a clutch only markers and results can.</dd>
<dt>Naive, corrected, within clutches</dt>
<dd>Naive counts only animals that became known. Corrected allows for who was tested. Within clutches compares brothers and
sisters only, so that a marker of the family can’t pass for one of hets.</dd>
<dt>Likelihood ratio, odds ratio</dt>
<dd>×2 doubles the odds: 1 : 1 becomes 2 : 1. ×1 changes nothing.</dd>
<dt>95 % interval</dt>
<dd>Figures that these records don’t rule out. A wide one says: too few animals yet, whatever the figure in the
middle.</dd>
<dt>Colours and shapes</dt>
<dd>Colours are from Okabe and Ito’s palette, made for colour-blind readers; shapes, dashes and words say the same,
so that nothing is lost in grey. Every chart has its table below it.</dd>
</dl>
)"));
}

}  // namespace likelihet::publishing
