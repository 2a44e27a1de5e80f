use std::env::home_dir;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// The path that a person means: typed, with `~` for the home folder, or pasted from a desktop, in quotes or as a
/// `file:` address.
pub(super) fn typed_path(typed: &str) -> PathBuf {
    resolve(typed, home_dir().as_deref())
}

fn resolve(typed: &str, home: Option<&Path>) -> PathBuf {
    let plain = unquoted(typed.trim());
    if let Some(address) = plain.strip_prefix("file://") {
        // What stands before the path is the name of this machine.
        let path = address.find('/').map_or(address, |slash| &address[slash..]);
        return decoded(path);
    }
    match (plain.strip_prefix('~'), home) {
        (Some(rest), Some(home)) if rest.is_empty() || rest.starts_with('/') => home.join(rest.trim_start_matches('/')),
        _ => PathBuf::from(plain),
    }
}

fn unquoted(text: &str) -> &str {
    let within = |quote: char| text.strip_prefix(quote)?.strip_suffix(quote);
    within('"').or_else(|| within('\'')).unwrap_or(text)
}

/// An address writes bytes that have another meaning in it as `%` and two hexadecimal digits.
fn decoded(address: &str) -> PathBuf {
    let mut bytes = Vec::with_capacity(address.len());
    let mut rest = address.as_bytes();
    while let Some((first, after)) = rest.split_first() {
        let hex = after.get(..2).filter(|_| *first == b'%').and_then(|digits| std::str::from_utf8(digits).ok());
        match hex.and_then(|digits| u8::from_str_radix(digits, 16).ok()) {
            Some(byte) => {
                bytes.push(byte);
                rest = &after[2..];
            }
            None => {
                bytes.push(*first);
                rest = after;
            }
        }
    }
    PathBuf::from(os_string(bytes))
}

#[cfg(unix)]
fn os_string(bytes: Vec<u8>) -> OsString {
    std::os::unix::ffi::OsStringExt::from_vec(bytes)
}

#[cfg(not(unix))]
fn os_string(bytes: Vec<u8>) -> OsString {
    String::from_utf8_lossy(&bytes).into_owned().into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn resolved(typed: &str) -> PathBuf {
        resolve(typed, Some(Path::new("/home/ada")))
    }

    #[test]
    fn the_home_folder_is_put_in_place_of_its_sign() {
        assert_eq!(resolved("~/plans/dunlin.json"), Path::new("/home/ada/plans/dunlin.json"));
        assert_eq!(resolved("~"), Path::new("/home/ada"));
        assert_eq!(resolved("~ada/plan.json"), Path::new("~ada/plan.json"), "of other people nothing is known");
        assert_eq!(resolve("~/plan.json", None), Path::new("~/plan.json"));
    }

    #[test]
    fn quotes_and_addresses_of_a_desktop_are_read() {
        assert_eq!(resolved(" \"/tmp/my plan.json\" \n"), Path::new("/tmp/my plan.json"));
        assert_eq!(resolved("'/tmp/plan.json'"), Path::new("/tmp/plan.json"));
        assert_eq!(resolved("file:///tmp/my%20plan%C3%A9.json"), Path::new("/tmp/my plan\u{e9}.json"));
        assert_eq!(resolved("file://localhost/tmp/plan.json"), Path::new("/tmp/plan.json"));
        assert_eq!(resolved("/tmp/100%25.json"), Path::new("/tmp/100%25.json"), "a path is no address");
        assert_eq!(resolved("file:///tmp/100%.json"), Path::new("/tmp/100%.json"));
    }
}
