/// The text with its control characters written out (`\u{1b}`): whoever wrote a name must not steer a reader's terminal.
pub(crate) fn controls(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_control() { plain.extend(letter.escape_unicode()) } else { plain.push(letter) }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::controls;

    #[test]
    fn control_characters_are_written_out() {
        assert_eq!(controls("a\u{1b}[31mb\u{9b}c\n"), "a\\u{1b}[31mb\\u{9b}c\\u{a}");
        assert_eq!(controls("Caf\u{e9}"), "Caf\u{e9}");
    }
}
