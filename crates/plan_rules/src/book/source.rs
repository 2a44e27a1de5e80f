use std::fmt;
use std::fmt::Write as _;

use sha2::{Digest, Sha256};

/// Where the text of a book came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BookSource {
    /// With the program.
    BuiltIn,
    /// From a file, at this path as people know it.
    File(String),
    /// From text that nobody gave a place.
    Text,
}

impl fmt::Display for BookSource {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::BuiltIn => "built-in",
            Self::File(path) => path,
            Self::Text => "text",
        })
    }
}

/// SHA-256 of a text (FIPS 180-4) in hexadecimal, as `sha256sum` prints it.
pub(super) fn digest(text: &str) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(text) {
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_digest_is_the_published_one() {
        // FIPS 180-2, appendix B.1.
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(super::digest("abc"), abc);
    }
}
