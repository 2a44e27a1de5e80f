//! Reading and writing plan files; the window and the headless commands both come through here.

use std::fs::{self, File, Metadata, Permissions};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use plan_model::Plan;
use plan_model::file::{LARGEST_FILE, Unreadable};
use thiserror::Error;

/// A plan with the bytes it was read from.
#[derive(Debug)]
pub struct ReadPlan {
    /// The plan.
    pub plan: Plan,
    /// The file as it was read, to know later whether somebody else changed it.
    pub text: String,
}

/// Why a plan file could not be opened. The path stands last in every message.
#[derive(Debug, Error)]
pub enum OpenError {
    /// The file system refused.
    #[error("{}. File: {}", plainly(.error), .path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What it said.
        error: io::Error,
    },
    /// A folder.
    #[error("This is a folder; choose a plan file in it. Folder: {}", .path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
    },
    /// A device, where a file was expected.
    #[error("This is not a file. File: {}", .path.display())]
    NotAFile {
        /// What it is called.
        path: PathBuf,
    },
    /// Larger than any plan.
    #[error(
        "The file has {} MB; the largest that is opened has {} MB. File: {}",
        megabytes(*.size),
        megabytes(LARGEST_FILE as u64),
        .path.display()
    )]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// Its size in bytes.
        size: u64,
    },
    /// Not text.
    #[error(
        "The file is not text in UTF-8: byte {at} fits no character. File: {}",
        .path.display()
    )]
    NotText {
        /// The file.
        path: PathBuf,
        /// The first byte that is wrong, from 0.
        at: usize,
    },
    /// Text that is not a plan; one line for each thing found.
    #[error("{}", sentences_about(&.problems.problems, .path))]
    NotAPlan {
        /// The file.
        path: PathBuf,
        /// Everything found wrong, with places.
        problems: Unreadable,
    },
    /// Text that does not even begin as a plan does.
    #[error("This is not a Mateline plan. {}", sentences_about(&.problems.problems, .path))]
    SomethingElse {
        /// The file.
        path: PathBuf,
        /// What was found where a plan was expected.
        problems: Unreadable,
    },
}

/// A size as people read it, in tenths of 1024 x 1024 bytes: rounded up, so that what is too large never reads as if it
/// were not.
fn megabytes(bytes: u64) -> String {
    let tenths = (bytes.saturating_mul(10)).div_ceil(1024 * 1024);
    match (tenths / 10, tenths % 10) {
        (whole, 0) => whole.to_string(),
        (whole, tenth) => format!("{whole}.{tenth}"),
    }
}

/// One line for each sentence, with its full stop and then the file that it is about.
#[must_use]
pub fn sentences_about<T: ToString>(sentences: &[T], path: &Path) -> String {
    let line = |sentence: &T| {
        let sentence = sentence.to_string();
        let stop = if sentence.ends_with(['.', '?']) { "" } else { "." };
        format!("{sentence}{stop} File: {}", path.display())
    };
    sentences.iter().map(line).collect::<Vec<_>>().join("\n")
}

/// What the file system says, as a sentence without its full stop.
fn plainly(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "There is no such file".to_owned(),
        io::ErrorKind::NotADirectory => "A part of the path is not a folder".to_owned(),
        io::ErrorKind::PermissionDenied => "The system does not permit it".to_owned(),
        io::ErrorKind::StorageFull => "The disk is full".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "The disk is read-only".to_owned(),
        _ => error.to_string(),
    }
}

/// Reads a plan file.
///
/// # Errors
/// When the file cannot be read, is larger than [`LARGEST_FILE`], is not UTF-8 text or is not a plan.
pub fn read_plan(path: &Path) -> Result<ReadPlan, OpenError> {
    let text = read_whole(path)?;
    match plan_model::file::read(without_mark(&text)) {
        Ok(plan) => Ok(ReadPlan { plan, text }),
        Err(problems) if without_mark(&text).trim_start().starts_with('{') => {
            Err(OpenError::NotAPlan { path: path.to_owned(), problems })
        }
        Err(problems) => Err(OpenError::SomethingElse { path: path.to_owned(), problems }),
    }
}

/// Reads a text file no larger than a plan may be. A byte order mark at its start is left out.
///
/// # Errors
/// When the file cannot be read, is larger than [`LARGEST_FILE`] or is not UTF-8 text.
pub fn read_text(path: &Path) -> Result<String, OpenError> {
    read_whole(path).map(|text| without_mark(&text).to_owned())
}

/// Text without the byte order mark that some editors put at the start of a file.
pub(super) fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// Reads a text file as it is.
pub(super) fn read_whole(path: &Path) -> Result<String, OpenError> {
    let failed = |error| OpenError::Io { path: path.to_owned(), error };
    let about = fs::metadata(path).map_err(failed)?;
    if about.is_dir() {
        return Err(OpenError::Folder { path: path.to_owned() });
    }
    if !about.is_file() {
        return Err(OpenError::NotAFile { path: path.to_owned() });
    }
    let too_large = |size| OpenError::TooLarge { path: path.to_owned(), size };
    let largest = LARGEST_FILE as u64;
    if about.len() > largest {
        return Err(too_large(about.len()));
    }
    // The file may grow between the question and the answer; never read more than was asked for.
    let mut bytes = Vec::new();
    File::open(path).and_then(|file| file.take(largest + 1).read_to_end(&mut bytes)).map_err(failed)?;
    if bytes.len() > LARGEST_FILE {
        return Err(too_large(bytes.len() as u64));
    }
    String::from_utf8(bytes)
        .map_err(|error| OpenError::NotText { path: path.to_owned(), at: error.utf8_error().valid_up_to() })
}

/// What a save may find at its path.
#[derive(Clone, Copy, Debug)]
pub enum Expected<'a> {
    /// No file of that name.
    Nothing,
    /// The file as this program last read or wrote it.
    Text(&'a str),
    /// Whatever is there; the person has said that it may be replaced.
    Anything,
}

/// Why a plan could not be saved. Whatever stood at the path before still stands there.
#[derive(Debug, Error)]
pub enum SaveError {
    /// The file system refused.
    #[error("{}; nothing was written. File: {}", plainly(.error), .path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What it said.
        error: io::Error,
    },
    /// The folder that the file would stand in is not there.
    #[error("There is no folder {}. File: {}", .folder.display(), .path.display())]
    NoFolder {
        /// The file.
        path: PathBuf,
        /// The folder.
        folder: PathBuf,
    },
    /// A folder or device, where a file was expected.
    #[error("This is not a file; nothing was written. File: {}", .path.display())]
    NotAFile {
        /// What it is called.
        path: PathBuf,
    },
    /// There is a file where none was expected.
    #[error("A file of this name is there already; nothing was written. File: {}", .path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// Somebody else wrote the file after it was read.
    #[error("The file was changed by another program after it was read; nothing was written. File: {}", .path.display())]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// The file is marked as read-only.
    #[error("The file is marked read-only; nothing was written. File: {}", .path.display())]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
}

/// Writes text to a file as a whole or not at all: to a new file beside it, to the disk, then under its name.
/// Permissions of a file that is replaced stay as they were; a link stays a link. A file that appears meanwhile where
/// none was stays as it is.
///
/// # Errors
/// When the file system refuses or the path does not hold what was expected; the old file is then untouched.
pub fn save_text(path: &Path, text: &str, expected: Expected<'_>) -> Result<(), SaveError> {
    let failed = |error| SaveError::Io { path: path.to_owned(), error };
    let target = end_of_links(path).map_err(failed)?;
    let existing = match fs::metadata(&target) {
        Ok(about) => Some(about),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(failed(error)),
    };
    match &existing {
        Some(about) if !about.is_file() => return Err(SaveError::NotAFile { path: path.to_owned() }),
        Some(about) if about.permissions().readonly() => return Err(SaveError::ReadOnly { path: path.to_owned() }),
        Some(_) => match expected {
            Expected::Nothing => return Err(SaveError::Exists { path: path.to_owned() }),
            Expected::Text(text) if fs::read(&target).map_err(failed)? != text.as_bytes() => {
                return Err(SaveError::Changed { path: path.to_owned() });
            }
            Expected::Text(_) | Expected::Anything => {}
        },
        None => {
            if let Some(folder) = target.parent().filter(|folder| !folder.as_os_str().is_empty() && !folder.exists()) {
                return Err(SaveError::NoFolder { path: path.to_owned(), folder: folder.to_owned() });
            }
        }
    }
    let beside = beside(&target);
    let permissions = existing.as_ref().map(Metadata::permissions);
    let is_new = permissions.is_none();
    let saved = write_beside(&beside, permissions, text).map_err(failed).and_then(|()| {
        if is_new { put_new(&beside, &target, path) } else { fs::rename(&beside, &target).map_err(failed) }
    });
    saved.inspect_err(|_| {
        // The first error is the one to tell; what could not be written is of no use to anybody.
        let _ = fs::remove_file(&beside);
    })?;
    sync_folder_of(&target);
    Ok(())
}

/// The file that a path leads to through links, whether it is there or not.
fn end_of_links(path: &Path) -> io::Result<PathBuf> {
    /// As many as Linux follows.
    const MOST: usize = 40;
    let mut end = path.to_owned();
    for _ in 0..MOST {
        // What is no link, or is not there at all, is the end.
        let Ok(to) = fs::read_link(&end) else { return Ok(end) };
        end = end.parent().unwrap_or(Path::new("")).join(to);
    }
    Err(io::Error::other("The link leads round in a circle"))
}

/// Gives a new file its name, unless another file has taken the name meanwhile.
fn put_new(beside: &Path, target: &Path, path: &Path) -> Result<(), SaveError> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => SaveError::Exists { path: path.to_owned() },
        _ => SaveError::Io { path: path.to_owned(), error },
    };
    // A name is taken with an empty file of our own, which alone is then replaced: not every disk knows hard links.
    File::create_new(target).map_err(failed)?;
    fs::rename(beside, target).map_err(failed).inspect_err(|_| {
        let _ = fs::remove_file(target);
    })
}

/// The name under which a file is written before it takes its place.
fn beside(target: &Path) -> PathBuf {
    let name = target.file_name().unwrap_or_default().to_string_lossy();
    target.with_file_name(format!(".{name}.{}.saving", std::process::id()))
}

fn write_beside(beside: &Path, permissions: Option<Permissions>, text: &str) -> io::Result<()> {
    let mut file = File::create_new(beside)?;
    if let Some(permissions) = permissions {
        file.set_permissions(permissions)?;
    }
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

/// Makes the new name last through a power cut where the system can do so; the file itself is safe either way.
fn sync_folder_of(target: &Path) {
    if let Some(folder) = target.parent()
        && let Ok(folder) = File::open(folder)
    {
        let _ = folder.sync_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A folder of its own that goes with the test.
    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let folder = std::env::temp_dir().join(format!("mateline-disk-{}-{name}", std::process::id()));
            fs::create_dir_all(&folder).expect("a temporary folder");
            Self(folder)
        }

        fn names(&self) -> Vec<String> {
            let entries = fs::read_dir(&self.0).expect("the folder is there");
            let mut names: Vec<String> =
                entries.map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned()).collect();
            names.sort();
            names
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn a_save_replaces_what_was_read_and_leaves_nothing_beside() {
        let folder = Folder::new("replace");
        let path = folder.0.join("plan.json");
        save_text(&path, "one", Expected::Nothing).expect("a new file");
        save_text(&path, "two", Expected::Text("one")).expect("the file as it was read");
        assert_eq!(fs::read_to_string(&path).expect("saved"), "two");
        assert_eq!(folder.names(), ["plan.json"]);
    }

    #[test]
    fn a_file_that_somebody_else_changed_is_kept() {
        let folder = Folder::new("changed");
        let path = folder.0.join("plan.json");
        fs::write(&path, "theirs").expect("written");
        let refused = save_text(&path, "ours", Expected::Text("as read"));
        assert!(matches!(refused, Err(SaveError::Changed { .. })), "{refused:?}");
        let refused = save_text(&path, "ours", Expected::Nothing);
        assert!(matches!(refused, Err(SaveError::Exists { .. })), "{refused:?}");
        assert_eq!(fs::read_to_string(&path).expect("kept"), "theirs");
        save_text(&path, "ours", Expected::Anything).expect("replacing was agreed");
        assert_eq!(fs::read_to_string(&path).expect("saved"), "ours");
    }

    #[test]
    fn a_failed_save_overwrites_nothing() {
        let folder = Folder::new("failed");
        let path = folder.0.join("plan.json");
        fs::write(&path, "good").expect("written");
        // The name beside is taken: the save fails before it touches the plan.
        fs::create_dir(beside(&path)).expect("a folder in the way");
        assert!(matches!(save_text(&path, "new", Expected::Text("good")), Err(SaveError::Io { .. })));
        assert_eq!(fs::read_to_string(&path).expect("kept"), "good");
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = Folder::new("permissions");
        let (path, link) = (folder.0.join("plan.json"), folder.0.join("link.json"));
        fs::write(&path, "one").expect("written");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("set");
        symlink(&path, &link).expect("linked");
        save_text(&link, "two", Expected::Text("one")).expect("saved through the link");
        assert_eq!(fs::read_to_string(&path).expect("saved"), "two");
        assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
        assert_eq!(fs::metadata(&path).expect("there").permissions().mode() & 0o777, 0o640);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).expect("set");
        assert!(matches!(save_text(&path, "three", Expected::Anything), Err(SaveError::ReadOnly { .. })));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_a_file_that_is_not_there_yet_stays_a_link() {
        use std::os::unix::fs::symlink;
        let folder = Folder::new("dangling");
        let (link, other) = (folder.0.join("link.json"), folder.0.join("other.json"));
        symlink("plan.json", &link).expect("linked");
        symlink("link.json", &other).expect("linked");
        save_text(&other, "one", Expected::Nothing).expect("saved through both links");
        assert_eq!(fs::read_to_string(folder.0.join("plan.json")).expect("saved"), "one");
        assert!([&link, &other].iter().all(|path| fs::symlink_metadata(path).expect("there").is_symlink()));
        assert_eq!(folder.names(), ["link.json", "other.json", "plan.json"]);
        let circle = folder.0.join("circle.json");
        symlink("circle.json", &circle).expect("linked");
        assert!(matches!(save_text(&circle, "one", Expected::Anything), Err(SaveError::Io { .. })));
    }

    #[cfg(unix)]
    #[test]
    fn what_is_no_regular_file_is_not_replaced() {
        let folder = Folder::new("no-file");
        let socket = folder.0.join("socket");
        let _listening = std::os::unix::net::UnixListener::bind(&socket).expect("a socket");
        for path in [socket.as_path(), &folder.0, Path::new("/dev/null")] {
            let refused = save_text(path, "ours", Expected::Anything);
            assert!(matches!(refused, Err(SaveError::NotAFile { .. })), "{refused:?}");
        }
        assert_eq!(folder.names(), ["socket"]);
    }

    #[test]
    fn a_file_that_appeared_meanwhile_is_kept() {
        let folder = Folder::new("meanwhile");
        let (path, written) = (folder.0.join("plan.json"), folder.0.join("written"));
        fs::write(&written, "ours").expect("written");
        fs::write(&path, "theirs").expect("written");
        let refused = put_new(&written, &path, &path);
        assert!(matches!(refused, Err(SaveError::Exists { .. })), "{refused:?}");
        assert_eq!(fs::read_to_string(&path).expect("kept"), "theirs");
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let folder = Folder::new("nodir");
        let path = folder.0.join("nodir/plan.json");
        let told = save_text(&path, "ours", Expected::Nothing).expect_err("no folder").to_string();
        assert!(told.contains("There is no folder ") && told.contains("nodir. File: "), "{told}");
        assert!(folder.names().is_empty());
    }

    #[test]
    fn a_byte_order_mark_is_no_part_of_the_plan() {
        let folder = Folder::new("mark");
        let path = folder.0.join("plan.json");
        let plan = crate::demo().expect("the demo home");
        let marked = format!("\u{feff}{}", plan_model::file::write(&plan));
        fs::write(&path, &marked).expect("written");
        let read = read_plan(&path).expect("a plan");
        assert_eq!(read.plan, plan);
        save_text(&path, "ours", Expected::Text(&read.text)).expect("the file is as it was read");
        fs::write(&path, "\u{feff}book").expect("written");
        assert_eq!(read_text(&path).expect("text"), "book");
    }

    #[test]
    fn what_is_no_plan_is_told_with_its_path_last() {
        let folder = Folder::new("no-plan");
        let path = folder.0.join("plan.json");
        assert!(matches!(read_plan(&path), Err(OpenError::Io { .. })));
        assert!(matches!(read_plan(&folder.0), Err(OpenError::Folder { .. })));
        fs::write(&path, [b'{', 0xff]).expect("written");
        assert!(matches!(read_plan(&path), Err(OpenError::NotText { at: 1, .. })));
        fs::write(&path, "{").expect("written");
        let told = read_plan(&path).expect_err("half a file").to_string();
        assert!(told.starts_with("line 1, column ") && told.ends_with("plan.json"), "{told}");
        fs::write(&path, "Dear Sir,").expect("written");
        let told = read_plan(&path).expect_err("a letter").to_string();
        assert!(told.starts_with("This is not a Mateline plan. line 1, column 1: "), "{told}");
    }

    #[test]
    fn sizes_are_rounded_up() {
        let largest = LARGEST_FILE as u64;
        assert_eq!([largest, largest + 1, 1].map(megabytes), ["16", "16.1", "0.1"]);
    }

    #[test]
    fn a_file_of_more_bytes_than_any_plan_is_not_read() {
        let folder = Folder::new("large");
        let path = folder.0.join("plan.json");
        File::create(&path).and_then(|file| file.set_len(LARGEST_FILE as u64 + 1)).expect("a sparse file");
        assert!(matches!(read_plan(&path), Err(OpenError::TooLarge { .. })));
    }
}
