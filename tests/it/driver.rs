//! The real program, given a home of its own: run plainly, or in a pseudo-terminal with keys in
//! and a screen out.
//!
//! Nothing here sleeps: a test says what it waits to see and fails, showing the screen, when that
//! has not come before a deadline.

use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize};

/// How long a test waits for what it expects. Long, since a busy machine is no fault of the program.
const PATIENCE: Duration = Duration::from_secs(120);

/// What the program sends before and after each frame, for terminals to show it at once.
const BEGIN: &[u8] = b"\x1b[?2026h";
const END: &[u8] = b"\x1b[?2026l";

/// The program under test.
const PROGRAM: &str = env!("CARGO_BIN_EXE_strandline");

/// A home folder that no other test shares.
pub(crate) struct Home(tempfile::TempDir);

impl Home {
    pub(crate) fn new() -> Home {
        Home(tempfile::tempdir().unwrap())
    }

    pub(crate) fn path(&self) -> &Path {
        self.0.path()
    }

    /// The one route file that the program has written below the home.
    pub(crate) fn route_file(&self) -> PathBuf {
        let mut found = Vec::new();
        let mut folders = vec![self.path().join("data")];
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|end| end == "ron") {
                    found.push(path);
                }
            }
        }
        assert_eq!(found.len(), 1, "{found:?}");
        found.remove(0)
    }

    /// What the program finds in its environment, and nothing else.
    fn environment(&self) -> Vec<(&'static str, String)> {
        let below = |name: &str| self.path().join(name).to_str().unwrap().to_owned();
        vec![
            ("HOME", below("")),
            ("XDG_CONFIG_HOME", below("config")),
            ("XDG_DATA_HOME", below("data")),
            ("XDG_STATE_HOME", below("state")),
            ("XDG_CACHE_HOME", below("cache")),
            ("PATH", std::env::var("PATH").unwrap_or_default()),
            ("LANG", "C.UTF-8".to_owned()),
            ("TZ", "UTC".to_owned()),
            ("TERM", "xterm-256color".to_owned()),
        ]
    }

    /// The program without a terminal, to be run by the caller.
    pub(crate) fn program(&self) -> Command {
        let mut command = Command::new(PROGRAM);
        command.env_clear().envs(self.environment()).current_dir(self.path());
        command
    }

    /// What the program answers without a terminal: nothing to read, its output kept.
    pub(crate) fn run(&self, args: &[&str]) -> Output {
        self.program().args(args).stdin(std::process::Stdio::null()).output().unwrap()
    }

    /// The program in a terminal of `columns` by `rows`.
    pub(crate) fn terminal(&self, (columns, rows): (u16, u16), args: &[&str]) -> Terminal {
        self.terminal_with((columns, rows), args, &[])
    }

    /// The same with more in its environment.
    pub(crate) fn terminal_with(
        &self,
        (columns, rows): (u16, u16),
        args: &[&str],
        more: &[(&str, &str)],
    ) -> Terminal {
        let mut command = CommandBuilder::new(PROGRAM);
        command.args(args);
        command.cwd(self.path());
        command.env_clear();
        for (name, value) in self.environment() {
            command.env(name, value);
        }
        for (name, value) in more {
            command.env(name, value);
        }
        Terminal::start(command, columns, rows)
    }
}

/// A time of the passage in JSON as the screen writes it: seconds, or an instant on its clock.
pub(crate) fn passage_text(value: &serde_json::Value) -> String {
    match value {
        serde_json::Value::Number(seconds) => {
            let seconds = jiff::SignedDuration::try_from_secs_f64(seconds.as_f64().unwrap());
            nav::text::duration(seconds.unwrap())
        }
        instant => nav::text::clock(&instant.as_str().unwrap().parse().unwrap()),
    }
}

/// What a terminal has shown so far.
struct Shown {
    parser: vt100::Parser,
    bytes: Vec<u8>,
    /// How many of the bytes are shown.
    count: usize,
    over: bool,
}

impl Shown {
    /// Shows what has come in as far as it is whole: a frame that comes in parts is no screen that a test may look at.
    fn take(&mut self, new: &[u8]) {
        self.bytes.extend_from_slice(new);
        let waiting = &self.bytes[self.count..];
        let whole = if new.is_empty() { waiting.len() } else { whole(waiting) };
        self.parser.process(&waiting[..whole]);
        self.count += whole;
        self.over |= new.is_empty();
    }
}

/// How many of these bytes come before a frame that is not over.
fn whole(bytes: &[u8]) -> usize {
    let last = |mark: &[u8]| bytes.windows(mark.len()).rposition(|part| part == mark);
    match last(BEGIN) {
        Some(begin) if last(END) < Some(begin) => begin,
        // The mark itself may come in two parts.
        _ => {
            let part = (1..BEGIN.len()).rfind(|count| bytes.ends_with(&BEGIN[..*count]));
            bytes.len() - part.unwrap_or(0)
        }
    }
}

type Watched = Arc<(Mutex<Shown>, Condvar)>;

/// The program in a pseudo-terminal. Dropping it ends the program.
pub(crate) struct Terminal {
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    shown: Watched,
    /// The line discipline before the program touched it.
    before: String,
    /// Whether the program has been seen to end: then its number may be another's.
    ended: bool,
}

impl Terminal {
    fn start(command: CommandBuilder, columns: u16, rows: u16) -> Terminal {
        let pair = portable_pty::native_pty_system().openpty(size(columns, rows)).unwrap();
        let master = pair.master;
        let before = discipline(master.as_ref());
        let parser = vt100::Parser::new(at_least_one(rows), at_least_one(columns), 0);
        let shown: Watched = Arc::new((
            Mutex::new(Shown { parser, bytes: Vec::new(), count: 0, over: false }),
            Condvar::new(),
        ));
        let reader = master.try_clone_reader().unwrap();
        let writer = master.take_writer().unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        // The only open end that is left is the program's: its end is the reader's end.
        drop(pair.slave);
        let watched = Arc::clone(&shown);
        std::thread::spawn(move || watch(reader, &watched));
        Terminal { master, writer, child, shown, before, ended: false }
    }

    /// Sends keys as a terminal does.
    pub(crate) fn keys(&mut self, keys: &str) {
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
    }

    /// Presses the left button at one cell, moves to another and lets go there. Cells are counted
    /// as `(column, row)` from zero.
    pub(crate) fn drag(&mut self, from: (u16, u16), to: (u16, u16)) {
        let report = |code: u8, (column, row): (u16, u16), end: char| {
            format!("\x1b[<{code};{};{}{end}", column + 1, row + 1)
        };
        let between = ((from.0 + to.0) / 2, (from.1 + to.1) / 2);
        self.keys(&report(0, from, 'M'));
        self.keys(&report(32, between, 'M'));
        self.keys(&report(32, to, 'M'));
        self.keys(&report(0, to, 'm'));
    }

    /// Presses the left button at a cell and lets it go there.
    pub(crate) fn click(&mut self, at: (u16, u16)) {
        self.hover(at);
        self.drag(at, at);
    }

    /// Moves the pointer to a cell with no button down.
    pub(crate) fn hover(&mut self, (column, row): (u16, u16)) {
        self.keys(&format!("\x1b[<35;{};{}M", column + 1, row + 1));
    }

    /// Gives the terminal another size; the parser first, so that no byte meets the old one.
    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        lock(&self.shown.0).parser.set_size(at_least_one(rows), at_least_one(columns));
        self.master.resize(size(columns, rows)).unwrap();
    }

    /// Sends a signal by its name without `SIG`.
    pub(crate) fn signal(&self, name: &str) {
        let process = self.child.process_id().unwrap().to_string();
        let sent = Command::new("kill").args(["-s", name, &process]).status().unwrap();
        assert!(sent.success(), "SIG{name} was not sent");
    }

    /// Waits until `seen` says yes of the screen, and returns its text.
    pub(crate) fn wait(&self, what: &str, seen: impl Fn(&vt100::Screen) -> bool) -> String {
        let shown = self.until(what, |shown| seen(shown.parser.screen()));
        shown.parser.screen().contents()
    }

    /// Waits until the screen shows every one of `texts`, and returns it.
    pub(crate) fn wait_for(&self, texts: &[&str]) -> String {
        self.wait(&format!("{texts:?}"), |screen| {
            let contents = screen.contents();
            texts.iter().all(|text| contents.contains(text))
        })
    }

    /// Waits until the screen does not show `text`, and returns it.
    pub(crate) fn wait_without(&self, text: &str) -> String {
        self.wait(&format!("no {text:?}"), |screen| !screen.contents().contains(text))
    }

    /// What `seen` makes of the screen as it stands.
    pub(crate) fn look<T>(&self, seen: impl Fn(&vt100::Screen) -> T) -> T {
        seen(lock(&self.shown.0).parser.screen())
    }

    /// Where `text` begins on the screen, as `(column, row)` from zero.
    pub(crate) fn find(&self, text: &str) -> Option<(u16, u16)> {
        let shown = lock(&self.shown.0);
        let screen = shown.parser.screen();
        let (rows, columns) = screen.size();
        (0..rows.get()).find_map(|row| {
            let line = screen.rows(0, columns.get()).nth(usize::from(row))?;
            let before = &line[..line.find(text)?];
            Some((u16::try_from(before.chars().count()).unwrap(), row))
        })
    }

    /// Every byte that the terminal has been sent so far.
    pub(crate) fn bytes(&self) -> Vec<u8> {
        lock(&self.shown.0).bytes.clone()
    }

    /// Whether the terminal's line discipline is as it was before the program started.
    pub(crate) fn is_given_back(&self) -> bool {
        discipline(self.master.as_ref()) == self.before
    }

    /// Waits until the program stands still, as after Ctrl-Z.
    pub(crate) fn wait_stopped(&self) {
        let process = self.child.process_id().unwrap().to_string();
        let deadline = Instant::now() + PATIENCE;
        loop {
            let state = Command::new("ps").args(["-o", "stat=", "-p", &process]).output().unwrap();
            if state.stdout.starts_with(b"T") {
                return;
            }
            assert!(Instant::now() < deadline, "waited in vain for the program to stop");
        }
    }

    /// Waits until the program has ended, and returns how.
    pub(crate) fn wait_end(&mut self) -> ExitStatus {
        drop(self.until("the end of the program", |shown| shown.over));
        let status = self.child.wait().unwrap();
        self.ended = true;
        status
    }

    fn until(&self, what: &str, seen: impl Fn(&Shown) -> bool) -> MutexGuard<'_, Shown> {
        let deadline = Instant::now() + PATIENCE;
        let mut shown = lock(&self.shown.0);
        while !seen(&shown) {
            let left = deadline.saturating_duration_since(Instant::now());
            assert!(
                !left.is_zero() && !shown.over,
                "waited in vain for {what}; the screen shows\n{}",
                shown.parser.screen().contents()
            );
            shown =
                self.shown.1.wait_timeout(shown, left).unwrap_or_else(PoisonError::into_inner).0;
        }
        shown
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        // A stopped or hanging program must not outlive its test.
        if !self.ended {
            let _ = self.child.kill();
            let _ = self.child.wait();
        }
    }
}

/// Takes what the program writes until there is no more.
fn watch(mut reader: Box<dyn Read + Send>, watched: &Watched) {
    let mut buffer = [0; 8192];
    loop {
        // A pseudo-terminal whose other end is closed reads as an error on some systems.
        let count = reader.read(&mut buffer).unwrap_or(0);
        lock(&watched.0).take(&buffer[..count]);
        watched.1.notify_all();
        if count == 0 {
            return;
        }
    }
}

fn lock(shown: &Mutex<Shown>) -> MutexGuard<'_, Shown> {
    shown.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The line discipline in words that can be compared.
fn discipline(master: &dyn MasterPty) -> String {
    format!("{:?}", master.get_termios())
}

fn size(columns: u16, rows: u16) -> PtySize {
    PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 }
}

fn at_least_one(cells: u16) -> NonZeroU16 {
    NonZeroU16::new(cells).unwrap_or(NonZeroU16::MIN)
}

#[test]
fn frames_are_shown_whole() {
    let parser = vt100::Parser::new(at_least_one(2), at_least_one(20), 0);
    let mut shown = Shown { parser, bytes: Vec::new(), count: 0, over: false };
    let mut seen = Vec::new();
    let sent = b"before\x1b[?2026h\x1b[Hone\x1b[?2026l\x1b[?2026h\x1b[Htwo";
    for byte in sent {
        shown.take(&[*byte]);
        seen.push(shown.parser.screen().contents());
    }
    seen.dedup();
    let before = ["b", "be", "bef", "befo", "befor", "before", "oneore"];
    assert_eq!(seen, before);
    // What is left when the program is gone is shown as it stands.
    shown.take(&[]);
    assert_eq!((shown.parser.screen().contents().as_str(), shown.over), ("twoore", true));
}
