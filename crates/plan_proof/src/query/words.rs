//! A query taken apart into words.

use std::ops::Range;

/// One word, a bracket or an equals sign.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Word {
    /// In small letters.
    pub(super) text: String,
    /// The letters of the query that it is made of, from 0.
    pub(super) at: Range<usize>,
}

/// The words of a query, in its order.
pub(super) fn words(query: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    // Whether the last word goes on.
    let mut open = false;
    for (at, letter) in query.chars().enumerate() {
        let stands_alone = matches!(letter, '(' | ')' | '=');
        let is_gap = letter.is_whitespace() || letter.is_control();
        match words.last_mut() {
            Some(word) if open && !stands_alone && !is_gap => {
                word.text.extend(letter.to_lowercase());
                word.at.end = at + 1;
            }
            _ if !is_gap => words.push(Word { text: letter.to_lowercase().collect(), at: at..at + 1 }),
            _ => {}
        }
        open = !stands_alone && !is_gap;
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn brackets_and_equals_signs_need_no_gaps_around_them() {
        let list = words("(Flex-Room=study)  and\tbaths");
        let list: Vec<(&str, Range<usize>)> = list.iter().map(|word| (word.text.as_str(), word.at.clone())).collect();
        let expected = [
            ("(", 0..1),
            ("flex-room", 1..10),
            ("=", 10..11),
            ("study", 11..16),
            (")", 16..17),
            ("and", 19..22),
            ("baths", 23..28),
        ];
        assert_eq!(list, expected);
    }
}
