//! Debian packages that the tests need, installed where they are missing.

use std::process::{Command, Stdio};

use crate::{command, console, failure::Failure};

/// What Python scripts need.
pub(crate) const FOR_PYTHON: &[&str] = &["python3", "python3-venv"];

/// What a real window under a virtual screen needs, and the pictures of it.
pub(crate) const FOR_WINDOWS: &[&str] = &[
    "imagemagick",
    "libegl1",
    "libgl1",
    "libgl1-mesa-dri",
    "libx11-xcb1",
    "libxcursor1",
    "libxi6",
    "libxkbcommon-x11-0",
    "mesa-vulkan-drivers",
    "xdotool",
    "xvfb",
];

/// Makes sure that packages are installed. Does not touch the network when they are.
///
/// # Errors
/// Names what is still missing in the end.
pub(crate) fn ensure(packages: &[&str]) -> Result<(), Failure> {
    let missing = missing(packages);
    if missing.is_empty() {
        return Ok(());
    }
    console::say(format_args!("Installing {}", missing.join(", ")));
    let installed = install(&missing);
    let still_missing = self::missing(packages);
    if still_missing.is_empty() {
        return Ok(());
    }
    let reason = installed.err().map(|failure| format!(" {failure}")).unwrap_or_default();
    Err(Failure::new(format!("Missing Debian packages: {}.{reason}", still_missing.join(", "))))
}

/// The packages that are not installed; all of them where there is no Debian to ask.
fn missing<'a>(packages: &[&'a str]) -> Vec<&'a str> {
    let asked = Command::new("dpkg-query")
        .args(["--show", "--showformat", "${Package} ${db:Status-Status}\n"])
        .args(packages)
        .stderr(Stdio::null())
        .output();
    // The exit code tells only that some package is unknown; the lines tell which are there.
    let answer = asked.map(|output| String::from_utf8_lossy(&output.stdout).into_owned()).unwrap_or_default();
    not_installed(packages, &answer)
}

fn not_installed<'a>(packages: &[&'a str], answer: &str) -> Vec<&'a str> {
    let installed: Vec<&str> = answer.lines().filter_map(|line| line.strip_suffix(" installed")).collect();
    packages.iter().copied().filter(|package| !installed.contains(package)).collect()
}

fn install(packages: &[&str]) -> Result<(), Failure> {
    let program = as_administrator()?;
    command::run(apt_get(program).args(["update", "--quiet"]))?;
    command::run(apt_get(program).args(["install", "--quiet", "--yes", "--no-install-recommends"]).args(packages))
}

/// The words that come before a command that only the administrator may run.
fn as_administrator() -> Result<&'static [&'static str], Failure> {
    let user = command::printed_on_success(Command::new("id").arg("-u"))?;
    if user.trim_ascii() == b"0" {
        return Ok(&[]);
    }
    match command::printed_on_success(Command::new("sudo").args(["-n", "true"])) {
        Ok(_) => Ok(&["sudo", "-n"]),
        Err(_) => Err(Failure::new("Installing them needs the administrator's rights, or `sudo` without a password.")),
    }
}

fn apt_get(administrator: &[&str]) -> Command {
    // `env` hands the setting on through `sudo`, which clears the environment.
    let mut words = administrator.iter().chain(&["env", "DEBIAN_FRONTEND=noninteractive", "apt-get"]).copied();
    let mut command = Command::new(words.next().unwrap_or("env"));
    command.args(words);
    command
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_package_that_is_unknown_removed_or_half_installed_is_missing() {
        let answer = "xvfb installed\nxdotool config-files\nlibgl1 half-configured\n";
        assert_eq!(not_installed(&["xvfb", "xdotool", "libgl1", "libxi6"], answer), ["xdotool", "libgl1", "libxi6"]);
    }

    #[test]
    fn a_package_that_is_installed_twice_for_two_machines_is_there() {
        assert!(not_installed(&["libgl1"], "libgl1 installed\nlibgl1 installed\n").is_empty());
    }

    #[test]
    fn where_nobody_answers_everything_is_missing() {
        assert_eq!(not_installed(FOR_PYTHON, ""), FOR_PYTHON);
    }
}
