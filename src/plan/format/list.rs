//! A list of a route file, checked element by element, so that the error stands at the one that is
//! wrong and one that goes on for ever is not read to its end.

use std::fmt;
use std::marker::PhantomData;

use serde::Deserialize;
use serde::de::{Deserializer, Error as _, SeqAccess, Visitor};

/// The elements of a list, each taken by `take`, which sees those before it.
pub(super) fn bounded_list<'de, D, F, T, E>(
    d: D,
    take: impl FnMut(&Vec<T>, F) -> Result<T, E>,
) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    F: Deserialize<'de>,
    E: fmt::Display,
{
    d.deserialize_seq(List { take, read: PhantomData, taken: PhantomData })
}

struct List<F, T, Take> {
    take: Take,
    read: PhantomData<F>,
    taken: PhantomData<T>,
}

impl<'de, F, T, E, Take> Visitor<'de> for List<F, T, Take>
where
    F: Deserialize<'de>,
    E: fmt::Display,
    Take: FnMut(&Vec<T>, F) -> Result<T, E>,
{
    type Value = Vec<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut seq: A) -> Result<Vec<T>, A::Error> {
        let mut taken = Vec::new();
        while let Some(element) = seq.next_element()? {
            let element = (self.take)(&taken, element).map_err(A::Error::custom)?;
            taken.push(element);
        }
        Ok(taken)
    }
}
