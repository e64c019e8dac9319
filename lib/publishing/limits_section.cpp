// What the figures can't say. Fixed text.
#include "sections.hpp"

namespace likelihet::publishing {

Markup limits_section() {
  return section("limits", "Limits and cautions", literal(R"(<ul>
<li><strong>Every percentage is an estimate, not a guarantee.</strong> It rests on the records and on the beliefs in the
model; wrong records make wrong percentages.</li>
<li>A good audit of past forecasts promises nothing for another line, another scorer or another keeper.</li>
<li>Markers are not proof, however many agree. Animals that were chosen by a marker do not prove that marker.</li>
<li>A test knows the variants it was made for; another variant of the same trait looks clear to it. Test, breeding and looks
are different kinds of proof and are told apart where it matters.</li>
<li>An animal whose outcome is itself only very likely counts by that likelihood, or not at all; see the settings.</li>
<li>What you tell a buyer is a claim, and consumer law applies to it: say the percentage, what it rests on, and that it
can be wrong.</li>
<li>Local law on keeping, breeding and trading animals comes before any figure here.</li>
<li>Some traits harm the animals that show them. Ask a reptile veterinarian before pairing hets, and when an animal is
unwell.</li>
</ul>
)"));
}

}  // namespace likelihet::publishing
