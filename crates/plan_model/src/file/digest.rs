//! What a plan, or a part of it, is known by: two that are alike have the same digest, wherever they were read from.

use std::fmt::Write as _;

use serde::Serialize;
use sha2::{Digest, Sha256};

use super::units_in_force;
use crate::{Alternate, Plan, Units};

/// So many hexadecimal digits tell the parts of one plan apart: by chance two differing parts agree once in 10^14.
const SHORT: usize = 12;

/// SHA-256 of a text (FIPS 180-4) in hexadecimal, as `sha256sum` prints it.
fn sha256(text: &str) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(text) {
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

/// A short digest of a part of a plan, in whatever units and layout its file is written.
fn short(part: &impl Serialize) -> String {
    // Every part of a plan is a struct, a list, text or a number, none of which can fail to become JSON.
    let json = units_in_force::scope(Units::In, || serde_json::to_string(part)).unwrap_or_default();
    let mut digest = sha256(&json);
    digest.truncate(SHORT);
    digest
}

/// SHA-256 of a plan as [`write()`](super::write) lays it out: the same for two files that differ in their layout only.
#[must_use]
pub fn plan_digest(plan: &Plan) -> String {
    sha256(&super::write(plan))
}

/// Short digests of the parts of a plan that hold for every home of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PartDigests {
    /// Of everything that is drawn whatever is chosen.
    pub base: String,
    /// Of the door and window units.
    pub catalogue: String,
    /// Of the modules and the mate line.
    pub modules: String,
    /// Of the facts of the whole home.
    pub home: String,
    /// Of the price book, or of there being none.
    pub prices: String,
}

impl PartDigests {
    /// Those of a plan.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Self {
            base: short(&plan.base),
            catalogue: short(&plan.catalogue),
            modules: short(&(&plan.modules, &plan.mate_line)),
            home: short(&plan.home),
            prices: short(&plan.prices),
        }
    }
}

/// A short digest of what an alternate does to the drawing: what it brings and what it removes.
#[must_use]
pub fn drawn_digest(alternate: &Alternate) -> String {
    short(&(&alternate.brings, &alternate.removes))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_digest_is_the_published_one() {
        // FIPS 180-2, appendix B.1.
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(super::sha256("abc"), abc);
    }
}
