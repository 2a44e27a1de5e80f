//! Reading the times that criterion leaves in its folder.

use std::{
    fs,
    path::{Path, PathBuf},
    time::SystemTime,
};

use serde_json::Value;

use super::figure::Figure;
use crate::failure::Failure;

/// The median of every benchmark measured since `start`. Older results lie in the same folder and are left out: their
/// benchmark may be gone.
///
/// # Errors
/// Names the file that cannot be read, or has no median.
pub(crate) fn figures(results: &Path, start: SystemTime) -> Result<Vec<Figure>, Failure> {
    let mut figures = Vec::new();
    let mut folders = vec![results.to_owned()];
    while let Some(folder) = folders.pop() {
        let estimates = folder.join("new/estimates.json");
        if is_measured_since(&estimates, start) {
            figures.push(Figure::from_nanoseconds(name(results, &folder), median(&estimates)?));
        }
        folders.extend(folders_in(&folder)?);
    }
    Ok(figures)
}

/// A benchmark's name is its folder; one in a group has the group's name before it.
fn name(results: &Path, folder: &Path) -> String {
    folder.strip_prefix(results).unwrap_or(folder).display().to_string()
}

fn is_measured_since(estimates: &Path, start: SystemTime) -> bool {
    fs::metadata(estimates).and_then(|metadata| metadata.modified()).is_ok_and(|modified| modified >= start)
}

fn median(estimates: &Path) -> Result<f64, Failure> {
    let text = fs::read_to_string(estimates)
        .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", estimates.display())))?;
    median_of(&text).ok_or_else(|| Failure::new(format!("{} has no median.", estimates.display())))
}

fn median_of(estimates: &str) -> Option<f64> {
    serde_json::from_str::<Value>(estimates).ok()?["median"]["point_estimate"].as_f64()
}

fn folders_in(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let entries: Result<Vec<_>, _> = fs::read_dir(folder).and_then(Iterator::collect);
    let entries = entries.map_err(|error| Failure::new(format!("{} cannot be read: {error}.", folder.display())))?;
    Ok(entries.iter().map(fs::DirEntry::path).filter(|path| path.is_dir()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_read_and_not_the_mean() {
        let estimates = r#"{"mean":{"point_estimate":9.0},"median":{"confidence_interval":{},"point_estimate":312.5}}"#;
        assert_eq!(median_of(estimates), Some(312.5));
        assert_eq!(median_of("{}"), None);
        assert_eq!(median_of("not JSON"), None);
    }

    #[test]
    fn a_benchmark_in_a_group_has_both_names() {
        assert_eq!(name(Path::new("/t/criterion"), Path::new("/t/criterion/derive_home")), "derive_home");
        assert_eq!(name(Path::new("/t/criterion"), Path::new("/t/criterion/proof/dunlin")), "proof/dunlin");
    }
}
