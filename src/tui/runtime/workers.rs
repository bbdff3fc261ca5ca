//! Threads that do the work that would hold a frame up.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;
use std::thread;
use std::time::{Duration, Instant};

use super::Event;
use crate::Msg;
use crate::job::{Job, Task, Ticket, Watch};

/// From when on the reader is told of work.
const SLOW: Duration = Duration::from_millis(250);

/// How often work says how far it is.
const TELL: Duration = Duration::from_millis(100);

thread_local! {
    /// What a panic on this thread said; only workers keep it.
    static SAID: RefCell<Option<String>> = const { RefCell::new(None) };
    static IS_WORKER: Cell<bool> = const { Cell::new(false) };
}

/// The work being done, of each task at most one that counts.
pub(super) struct Workers {
    sender: Sender<Event>,
    running: BTreeMap<Task, Running>,
}

struct Running {
    ticket: Ticket,
    since: Instant,
    told: bool,
    given_up: Arc<AtomicBool>,
}

impl Workers {
    pub(super) fn new(sender: Sender<Event>) -> Workers {
        Workers { sender, running: BTreeMap::new() }
    }

    /// Begins work on a thread of its own; what was done for the same before is given up.
    pub(super) fn begin(&mut self, job: Job) -> std::io::Result<()> {
        let ticket = job.ticket();
        self.give_up(ticket.task);
        let given_up = Arc::new(AtomicBool::new(false));
        let watch = Told {
            ticket,
            sender: self.sender.clone(),
            given_up: Arc::clone(&given_up),
            last: Cell::new(Instant::now()),
        };
        thread::Builder::new().name("work".to_owned()).spawn(move || work(job, &watch))?;
        self.running
            .insert(ticket.task, Running { ticket, since: Instant::now(), told: false, given_up });
        Ok(())
    }

    /// Tells work that it counts no more. It ends when it next asks.
    pub(super) fn give_up(&mut self, task: Task) {
        if let Some(running) = self.running.remove(&task) {
            running.given_up.store(true, Ordering::Relaxed);
        }
    }

    /// Takes note that work has ended.
    pub(super) fn ended(&mut self, ticket: Ticket) {
        self.running.retain(|_, running| running.ticket != ticket);
    }

    /// How long until the reader is to be told of work that goes on.
    pub(super) fn slow_in(&self) -> Option<Duration> {
        let quiet = self.running.values().filter(|running| !running.told);
        quiet.map(|running| SLOW.saturating_sub(running.since.elapsed())).min()
    }

    /// The work that the reader is to be told of now.
    pub(super) fn slow(&mut self) -> Option<Msg> {
        let slow = |running: &&mut Running| !running.told && running.since.elapsed() >= SLOW;
        let running = self.running.values_mut().find(slow)?;
        running.told = true;
        Some(Msg::Working { ticket: running.ticket, done: None })
    }
}

/// Leaving, no work is waited for.
impl Drop for Workers {
    fn drop(&mut self) {
        for task in Task::ALL {
            self.give_up(task);
        }
    }
}

/// Does work and sends what comes of it. A panic in it ends the program as any other does, but
/// on the thread that has the terminal, so that nothing is drawn after it was given back.
fn work(job: Job, watch: &Told) {
    keep_panics();
    let event = match catch_unwind(AssertUnwindSafe(|| job.run(watch))) {
        Ok(outcome) => Event::Worked { ticket: watch.ticket, outcome },
        Err(_) => Event::Panicked(said()),
    };
    // Nobody listening means that the program is leaving.
    let _ = watch.sender.send(event);
}

/// From now on what a panic on this thread says is kept, to be sent to the loop.
pub(super) fn keep_panics() {
    IS_WORKER.set(true);
}

/// What the panic on this thread said.
pub(super) fn said() -> String {
    SAID.take().unwrap_or_default()
}

/// Keeps what a panic says, if this is the thread of a worker. Whether it is.
pub(super) fn keep_panic(said: &str) -> bool {
    let is_worker = IS_WORKER.get();
    if is_worker {
        SAID.set(Some(said.to_owned()));
    }
    is_worker
}

/// Tells the loop now and then how far work is.
struct Told {
    ticket: Ticket,
    sender: Sender<Event>,
    given_up: Arc<AtomicBool>,
    last: Cell<Instant>,
}

impl Watch for Told {
    fn go_on(&self, done: Option<f64>) -> bool {
        if self.given_up.load(Ordering::Relaxed) {
            return false;
        }
        if self.last.get().elapsed() >= TELL {
            self.last.set(Instant::now());
            let msg = Msg::Working { ticket: self.ticket, done };
            let _ = self.sender.send(Event::Msg(msg));
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::{Receiver, channel};

    use super::*;
    use crate::job::Outcome;
    use crate::state::{Reading, Work};

    const PATIENCE: Duration = Duration::from_secs(120);

    fn workers() -> (Workers, Receiver<Event>) {
        let (sender, receiver) = channel();
        (Workers::new(sender), receiver)
    }

    fn nothing() -> Option<Outcome> {
        Some(Outcome::Read(Arc::new(Reading::default())))
    }

    #[test]
    fn work_is_done_and_its_result_sent() {
        let (mut workers, receiver) = workers();
        let job = Work::default().ask(Task::Read, |_| nothing());
        let asked = job.ticket();
        workers.begin(job).unwrap();
        let Ok(Event::Worked { ticket, outcome: Some(_) }) = receiver.recv_timeout(PATIENCE) else {
            panic!("a result")
        };
        assert_eq!(ticket, asked);
        workers.ended(ticket);
        assert!(workers.running.is_empty());
    }

    #[test]
    fn newer_work_ends_the_older_of_its_task() {
        let (mut workers, receiver) = workers();
        let mut asked = Work::default();
        // The first goes on until it is told that it counts no more.
        let first = asked.ask(Task::Read, |watch| {
            while watch.go_on(None) {
                thread::yield_now();
            }
            None
        });
        let first_ticket = first.ticket();
        workers.begin(first).unwrap();
        workers.begin(asked.ask(Task::Read, |_| nothing())).unwrap();
        let mut ended = Vec::new();
        while ended.len() < 2 {
            match receiver.recv_timeout(PATIENCE).expect("both end") {
                Event::Worked { ticket, outcome } => ended.push((ticket, outcome.is_some())),
                Event::Msg(Msg::Working { ticket, .. }) => assert_eq!(ticket, first_ticket),
                _ => panic!("only work"),
            }
        }
        assert!(ended.contains(&(first_ticket, false)), "{ended:?}");
        assert!(ended.iter().any(|(ticket, came)| *ticket != first_ticket && *came));
    }

    #[test]
    fn work_that_takes_long_is_told_once_and_says_how_far_it_is() {
        let (mut workers, receiver) = workers();
        let job = Work::default().ask(Task::Lay, |watch| {
            while watch.go_on(Some(0.25)) {
                thread::yield_now();
            }
            None
        });
        let asked = job.ticket();
        workers.begin(job).unwrap();
        assert!(workers.slow_in().unwrap() <= SLOW);
        let told = receiver.recv_timeout(PATIENCE);
        assert!(
            matches!(told, Ok(Event::Msg(Msg::Working { done: Some(0.25), ticket })) if ticket == asked)
        );
        while !workers.slow_in().unwrap().is_zero() {
            thread::yield_now();
        }
        assert_eq!(workers.slow(), Some(Msg::Working { ticket: asked, done: None }));
        assert_eq!((workers.slow(), workers.slow_in()), (None, None));
    }

    #[test]
    fn a_panic_in_work_is_sent_with_what_it_said() {
        let before = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |info| {
            if !keep_panic(&info.to_string()) {
                before(info);
            }
        }));
        let (mut workers, receiver) = workers();
        let broken = |_: &dyn Watch| -> Option<Outcome> { panic!("dividers broken") };
        workers.begin(Work::default().ask(Task::Read, broken)).unwrap();
        let Ok(Event::Panicked(said)) = receiver.recv_timeout(PATIENCE) else {
            panic!("the panic is sent")
        };
        assert!(said.contains("dividers broken"), "{said}");
    }
}
