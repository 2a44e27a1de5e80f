/// What the program is not, one sentence each; shown in About, on every sheet and under every report.
pub const CAUTIONS: [&str; 5] = [
    "Mateline is a design aid: a verdict is not an approval, a plan review or a legal opinion.",
    "It does not replace the adopted code, local amendments, the authority having jurisdiction, a licensed designer or \
     engineer, or the factory's approved drawings.",
    "It does not check structure, foundations, energy, electrical, plumbing or mechanical design, or fire separation.",
    "The limits of a rule book are model values: the adopted edition and its local amendments govern and must be confirmed.",
    "A figure that the plan does not hold is unknown, never met; an estimated clear opening must be confirmed with the \
     maker's published one.",
];
