//! Finds the line and column of a JSON path in text that is known to be JSON.

/// Line and column, both from 1, of the value at a path such as `base.walls[3].from`; the nearest enclosing value
/// when the path's last parts are not in the text (a field left out).
pub(super) fn line_and_column(text: &str, path: &str) -> Option<(usize, usize)> {
    let mut scanner = Scanner { text: text.as_bytes(), at: 0 };
    scanner.skip_space();
    let mut found = scanner.at;
    for step in steps(path) {
        let inside = match step {
            Step::Field(name) => scanner.enter_field(name),
            Step::Index(index) => scanner.enter_index(index),
        };
        if inside.is_none() {
            break;
        }
        found = scanner.at;
    }
    let before = text.get(..found)?;
    let line = before.bytes().filter(|b| *b == b'\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    Some((line, column))
}

enum Step<'a> {
    Field(&'a str),
    Index(usize),
}

fn steps(path: &str) -> impl Iterator<Item = Step<'_>> {
    path.split(['.', '[']).filter(|part| !part.is_empty()).map(|part| {
        match part.strip_suffix(']').and_then(|index| index.parse().ok()) {
            Some(index) => Step::Index(index),
            None => Step::Field(part),
        }
    })
}

struct Scanner<'a> {
    text: &'a [u8],
    at: usize,
}

impl Scanner<'_> {
    fn peek(&self) -> Option<u8> {
        self.text.get(self.at).copied()
    }

    fn skip_space(&mut self) {
        while self.peek().is_some_and(|b| b.is_ascii_whitespace()) {
            self.at += 1;
        }
    }

    /// Steps over one byte and the space around it.
    fn eat(&mut self, byte: u8) -> Option<()> {
        self.skip_space();
        (self.peek()? == byte).then(|| self.at += 1)?;
        self.skip_space();
        Some(())
    }

    fn enter_field(&mut self, name: &str) -> Option<()> {
        self.eat(b'{')?;
        loop {
            let start = self.at;
            self.skip_string()?;
            let key = self.text.get(start + 1..self.at - 1)?;
            self.eat(b':')?;
            if key == name.as_bytes() {
                return Some(());
            }
            self.skip_value()?;
            self.eat(b',')?;
        }
    }

    fn enter_index(&mut self, index: usize) -> Option<()> {
        self.eat(b'[')?;
        for _ in 0..index {
            self.skip_value()?;
            self.eat(b',')?;
        }
        Some(())
    }

    fn skip_string(&mut self) -> Option<()> {
        (self.peek()? == b'"').then(|| self.at += 1)?;
        loop {
            match self.peek()? {
                b'\\' => self.at += 2,
                b'"' => {
                    self.at += 1;
                    return Some(());
                }
                _ => self.at += 1,
            }
        }
    }

    fn skip_value(&mut self) -> Option<()> {
        let mut depth = 0_usize;
        loop {
            match self.peek()? {
                b'"' => self.skip_string()?,
                b'{' | b'[' => {
                    depth += 1;
                    self.at += 1;
                }
                b'}' | b']' if depth == 0 => return Some(()),
                b'}' | b']' => {
                    depth -= 1;
                    self.at += 1;
                }
                b',' if depth == 0 => return Some(()),
                _ => self.at += 1,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::line_and_column;

    const TEXT: &str = "{\n  \"a\": [1, {\"b\\\"c\": \"x,}\"}],\n  \"d\": { \"e\": [] }\n}";

    #[test]
    fn finds_values_and_the_nearest_enclosing_ones() {
        assert_eq!(line_and_column(TEXT, ""), Some((1, 1)));
        assert_eq!(line_and_column(TEXT, "a[1]"), Some((2, 12)));
        assert_eq!(line_and_column(TEXT, "d.e"), Some((3, 15)));
        assert_eq!(line_and_column(TEXT, "d.missing"), Some((3, 8)));
        assert_eq!(line_and_column(TEXT, "a[7]"), Some((2, 8)));
    }
}
