//! The record while it is practised: every answer is on the disk before the next question.

use std::io;

use files::Folders;
use practice::memory::{Answered, Record, weaknesses};

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
