//! What is kept while it is practised: every answer, and how far a set is, is on the disk before the next question.

use std::io;

use files::{Folders, KeptSet, KeptSitting, Session};
use practice::memory::{self, Answered, Record, weaknesses};
use practice::set::Set;
use practice::{Plan, Sitting};

use crate::page::paragraph;
use crate::{Harmless, Io};

/// The record, and where it is kept.
pub(super) struct Keeper {
    folders: Option<Folders>,
    pub(super) record: Record,
    /// What was answered this time; it may not be kept.
    now: Record,
}

impl Keeper {
    /// The record in these folders; nothing is kept where there are none.
    ///
    /// # Errors
    /// Where it is there but cannot be read: it is not to be overwritten.
    pub(super) fn open(folders: Option<Folders>) -> anyhow::Result<Keeper> {
        let record = folders.as_ref().map(files::open_results).transpose()?.unwrap_or_default();
        Ok(Keeper { folders, record, now: Record::default() })
    }

    /// Whether anything is kept.
    pub(super) const fn keeps(&self) -> bool {
        self.folders.is_some()
    }

    /// Keeps a result. What cannot be kept is told, and practice goes on.
    pub(super) fn keep(&mut self, answered: Answered, io: &mut Io<'_>) {
        // Full records end the keeping, not the practice.
        let _ = self.now.keep(answered.clone());
        if let Some(folders) = &self.folders {
            match files::keep_result(folders, answered.clone()) {
                Ok(record) => {
                    self.record = record;
                    return;
                }
                Err(error) => {
                    let said = Harmless(format!("this answer is not kept: {error}"));
                    let _ = writeln!(io.errors, "{said}");
                }
            }
        }
        let _ = self.record.keep(answered);
    }

    /// A set on the chart of this checksum, gone on with where it was left, and a word about that; from its first question where it was
    /// not left, or was changed since.
    pub(super) fn take_up(&self, set: &Set, sum: u32) -> (Sitting, Option<String>) {
        let anew = Sitting::new(Plan::Set(set.clone()));
        let session = self.folders.as_ref().map(|folders| Session::open(folders).0);
        let kept = session.as_ref().and_then(|session| session.sets.get(&set.title));
        let Some((kept, answered)) =
            kept.and_then(|kept| Some((kept, memory::read(&kept.sitting.answered).ok()?)))
        else {
            return (anew, None);
        };
        let answered = answered.answered().to_vec();
        if let Some(changed) = kept.changed(set, sum) {
            let left = practice::set::read(&kept.text).unwrap_or_else(|_| set.clone());
            let place = Sitting::again(Plan::Set(left), answered).place();
            return (anew, Some(changed.told(&set.title, &place)));
        }
        let again = Sitting::again(Plan::Set(set.clone()), answered);
        let word = format!("It goes on where it was left, at {}.", again.place());
        (again, Some(word))
    }

    /// Keeps how far a set is on the chart of this title and checksum, to be gone on with; nothing of one that is at its end.
    pub(super) fn keep_set(&self, sitting: &Sitting, (chart, sum): (&str, u32), io: &mut Io<'_>) {
        let (Some(folders), Plan::Set(set)) = (&self.folders, sitting.plan()) else { return };
        let mut answered = Record::default();
        let all_kept = sitting.answered().iter().all(|it| answered.keep(it.clone()));
        let kept = (all_kept && !sitting.is_full()).then(|| KeptSet {
            text: practice::set::write(set),
            chart: chart.to_owned(),
            sum,
            sitting: KeptSitting {
                questions: sitting.count(),
                answered: memory::write(&answered),
                ..KeptSitting::default()
            },
        });
        // Another program may have kept something since.
        let (mut session, _) = Session::open(folders);
        session.lay_down_set(&set.title, kept);
        if let Err(error) = session.keep(folders) {
            let said = Harmless(format!("how far the set is is not kept: {error}"));
            let _ = writeln!(io.errors, "{said}");
        }
    }

    /// Says which mistakes recur in what was practised this time.
    pub(super) fn tell_what_recurs(&self, to: &mut dyn io::Write) -> io::Result<()> {
        for it in weaknesses(&self.record) {
            if self.now.answered().iter().any(|now| it.kinds.contains(&now.kind)) {
                paragraph("", &it.said(), to)?;
            }
        }
        Ok(())
    }
}
