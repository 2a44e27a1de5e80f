//! A screen of its own with the program's window on it, and hands for it.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::thread::sleep;
use std::time::{Duration, Instant};

use serde_json::Value;

/// A place in the window, right and down, in points.
pub(crate) type Place = (f64, f64);

/// What the test cannot do without, with the Debian package that brings it.
const NEEDED: [(&str, &str); 3] = [("Xvfb", "xvfb"), ("xdotool", "xdotool"), ("import", "imagemagick")];

const PATIENCE: Duration = Duration::from_secs(30);

/// A screen, the program's window on it, and the folder that holds its log.
pub(crate) struct Desk {
    screen: Child,
    program: Child,
    display: String,
    folder: PathBuf,
}

impl Desk {
    /// Starts a screen and opens the window on it.
    pub(crate) fn with_window() -> Self {
        Self::with_window_where(|_, _| {})
    }

    /// The same; `prepare` may put files into the desk's folder and change how the program is started.
    pub(crate) fn with_window_where(prepare: impl FnOnce(&mut Command, &Path)) -> Self {
        for (program, package) in NEEDED {
            let found = Command::new("which").arg(program).stdout(Stdio::null()).status();
            let found = found.is_ok_and(|status| status.success());
            assert!(found, "this test needs `{program}`: install the package {package}");
        }
        let mut screen = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1440x900x24", "-nolisten", "tcp"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb starts");
        let mut number = String::new();
        let out = screen.stdout.take().expect("piped");
        BufReader::new(out).read_line(&mut number).expect("Xvfb tells its display");
        let display = format!(":{}", number.trim());

        static DESKS: AtomicU32 = AtomicU32::new(0);
        let count = DESKS.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("mateline-desk-{}-{count}", std::process::id()));
        fs::create_dir_all(&folder).expect("a temporary folder");
        let mut program = Command::new(env!("CARGO_BIN_EXE_mateline"));
        program
            .arg("--log")
            .arg(folder.join("log.jsonl"))
            .env("DISPLAY", &display)
            .env_remove("WAYLAND_DISPLAY")
            .env("XDG_STATE_HOME", &folder)
            .stderr(Stdio::inherit());
        prepare(&mut program, &folder);
        let program = program.spawn().expect("the program starts");
        let desk = Self { screen, program, display, folder };
        desk.wait_for("board", |_| true);
        desk
    }

    fn window(&self) -> String {
        let started = Instant::now();
        while started.elapsed() < PATIENCE {
            let found = self
                .command("xdotool")
                .args(["search", "--onlyvisible", "--name", "Mateline"])
                .output()
                .expect("xdotool runs");
            if let Some(window) = String::from_utf8_lossy(&found.stdout).lines().next_back() {
                return window.to_owned();
            }
            sleep(Duration::from_millis(50));
        }
        panic!("no window appears");
    }

    fn command(&self, program: &str) -> Command {
        let mut command = Command::new(program);
        command.env("DISPLAY", &self.display);
        command
    }

    fn xdotool(&self, words: &[&str]) {
        let status = self.command("xdotool").args(words).status().expect("xdotool runs");
        assert!(status.success(), "xdotool {words:?}");
    }

    fn lines(&self) -> Vec<Value> {
        let text = fs::read_to_string(self.folder.join("log.jsonl")).unwrap_or_default();
        text.lines().filter_map(|line| serde_json::from_str(line).ok()).collect()
    }

    /// Waits until the last line of a kind is as wanted, and gives it.
    pub(crate) fn wait_for(&self, kind: &str, wanted: impl Fn(&Value) -> bool) -> Value {
        let started = Instant::now();
        loop {
            let last = self.lines().into_iter().rfind(|line| line["line"] == kind);
            match last {
                Some(line) if wanted(&line) => return line,
                last if started.elapsed() > PATIENCE => panic!("no such `{kind}` line; the last one is {last:?}"),
                _ => sleep(Duration::from_millis(20)),
            }
        }
    }

    /// Where a place of the plan, in inches, is seen.
    pub(crate) fn on_plan(&self, x: f64, y: f64) -> Place {
        let board = self.wait_for("board", |_| true);
        let number = |value: &Value| value.as_f64().expect("a number");
        let of = |name: &str| number(&board[name]);
        let zoom = of("points_per_inch");
        let right = (x - number(&board["centre_inches"][0])) * zoom;
        let down = -(y - number(&board["centre_inches"][1])) * zoom;
        (of("left") + of("width") / 2.0 + right, of("top") + of("height") / 2.0 + down)
    }

    /// Moves the pointer.
    pub(crate) fn move_to(&self, (x, y): Place) {
        let board = self.wait_for("board", |_| true);
        let scale = board["pixels_per_point"].as_f64().expect("a number");
        let pixel = |points: f64| format!("{:.0}", points * scale);
        self.xdotool(&["mousemove", "--window", &self.window(), &pixel(x), &pixel(y)]);
        sleep(Duration::from_millis(60));
    }

    /// Presses the main button at a place.
    pub(crate) fn press(&self, at: Place) {
        self.move_to(at);
        self.xdotool(&["mousedown", "1"]);
        sleep(Duration::from_millis(60));
    }

    /// Lets the main button go.
    pub(crate) fn release(&self) {
        self.xdotool(&["mouseup", "1"]);
    }

    /// Presses the main button at a place and lets it go.
    pub(crate) fn click(&self, at: Place) {
        self.press(at);
        self.release();
    }

    /// Presses keys together, such as `ctrl+z`.
    pub(crate) fn keys(&self, keys: &str) {
        // Without a window manager nobody else gives the window the keyboard.
        self.xdotool(&["windowfocus", &self.window()]);
        self.settle();
        self.xdotool(&["key", keys]);
        sleep(Duration::from_millis(100));
        self.settle();
    }

    /// Waits until the program has nothing more to do.
    fn settle(&self) {
        let mut before = self.processor_time();
        loop {
            sleep(Duration::from_millis(120));
            let now = self.processor_time();
            if now == before {
                return;
            }
            before = now;
        }
    }

    /// Keeps a picture of the screen.
    pub(crate) fn picture(&self, name: &str) {
        self.settle();
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("../pictures");
        fs::create_dir_all(&folder).expect("a folder for pictures");
        let file = folder.join(format!("{name}.png"));
        let status = self.command("import").args(["-window", "root"]).arg(&file).status().expect("import runs");
        assert!(status.success(), "import -window root {}", file.display());
    }

    /// Does nothing for a second.
    pub(crate) fn rest(&self) {
        sleep(Duration::from_secs(1));
    }

    /// Processor time that the program has taken, in hundredths of a second.
    pub(crate) fn processor_time(&self) -> u64 {
        let stat = fs::read_to_string(format!("/proc/{}/stat", self.program.id())).expect("the program runs");
        let after_name = stat.rsplit_once(')').expect("its name stands in brackets").1;
        let fields: Vec<&str> = after_name.split_whitespace().collect();
        let ticks = |index: usize| fields[index].parse::<u64>().expect("a number");
        // Fields 14 and 15 of the whole line: time in the program and in the system for it.
        ticks(11) + ticks(12)
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        for child in [&mut self.program, &mut self.screen] {
            let _ = child.kill();
            let _ = child.wait();
        }
        let _ = fs::remove_dir_all(&self.folder);
    }
}
