use std::fs;
use std::path::{Path, PathBuf};

/// The plan files last opened or saved, newest first.
///
/// The list is a convenience: where it cannot be read or written, nothing is said and nothing else suffers.
#[derive(Debug, Default)]
pub struct Recent {
    paths: Vec<PathBuf>,
    kept_in: Option<PathBuf>,
}

impl Recent {
    const LONGEST: usize = 8;

    /// The list of the person who runs the program, where the desktop keeps such things.
    #[must_use]
    pub fn of_this_person() -> Self {
        let from = |variable: &str| std::env::var_os(variable).filter(|value| !value.is_empty()).map(PathBuf::from);
        let state = from("XDG_STATE_HOME").or_else(|| Some(from("HOME")?.join(".local/state")));
        let kept_in = state.map(|state| state.join("mateline/recent-plans.txt"));
        let text = kept_in.as_deref().and_then(|path| fs::read_to_string(path).ok()).unwrap_or_default();
        let paths = text.lines().filter(|line| !line.is_empty()).map(PathBuf::from).take(Self::LONGEST).collect();
        Self { paths, kept_in }
    }

    /// The files, newest first.
    pub fn iter(&self) -> impl Iterator<Item = &Path> {
        self.paths.iter().map(PathBuf::as_path)
    }

    /// Puts a file first.
    pub fn add(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.paths.retain(|other| *other != path);
        self.paths.insert(0, path);
        self.paths.truncate(Self::LONGEST);
        if let Some(kept_in) = &self.kept_in {
            let lines: String = self.paths.iter().map(|path| format!("{}\n", path.display())).collect();
            let _ = kept_in.parent().map(fs::create_dir_all);
            let _ = fs::write(kept_in, lines);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_is_first_and_stands_once() {
        let mut recent = Recent::default();
        for name in ["/a", "/b", "/a"] {
            recent.add(Path::new(name));
        }
        assert_eq!(recent.iter().collect::<Vec<_>>(), [Path::new("/a"), Path::new("/b")]);
        for number in 0..20 {
            recent.add(&PathBuf::from(format!("/{number}")));
        }
        assert_eq!(recent.iter().count(), Recent::LONGEST);
    }
}
