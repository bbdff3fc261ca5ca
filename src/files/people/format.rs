//! People and kit from the text of a file.

use std::fmt;
use std::marker::PhantomData;

use chart::clean::{NAME, NOTE, clean};
use paper::sheet::{Boat, Carried, Contact, Kit, People, Person, Vehicle};
use plan::format::in_words;
use ron::error::SpannedError;
use serde::de::{Deserializer, Error as _, SeqAccess, Visitor};
use serde::{Deserialize, de};

/// The version of the file that this program reads.
const VERSION: u32 = 1;

/// What is wrong, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Wrong {
    /// The line, from one.
    pub(super) line: usize,
    /// The column in characters, from one.
    pub(super) column: usize,
    /// What is wrong; what would be right.
    pub(super) message: String,
}

/// The people that the text of a file describes.
pub(super) fn read(text: &str) -> Result<People, Wrong> {
    ron::from_str::<PeopleFile>(text).map(People::from).map_err(|error| described(&error, text))
}

#[derive(Deserialize)]
#[serde(rename = "People", deny_unknown_fields)]
struct PeopleFile {
    #[serde(rename = "version", deserialize_with = "version")]
    _version: (),
    #[serde(default, deserialize_with = "name")]
    group: String,
    #[serde(default, deserialize_with = "boats")]
    boats: Vec<Boat>,
    #[serde(default, deserialize_with = "kit")]
    kit: Vec<Carried>,
    #[serde(default, deserialize_with = "note")]
    experience: String,
    #[serde(default, deserialize_with = "note")]
    medical: String,
    #[serde(default)]
    contact: ContactFile,
    #[serde(default, deserialize_with = "vehicles")]
    vehicles: Vec<Vehicle>,
}

#[derive(Deserialize)]
#[serde(rename = "Boat", deny_unknown_fields)]
struct BoatFile {
    #[serde(default, deserialize_with = "name")]
    kind: String,
    #[serde(default, deserialize_with = "name")]
    colours: String,
    #[serde(deserialize_with = "crew")]
    crew: Vec<Person>,
}

#[derive(Deserialize)]
#[serde(rename = "Person", deny_unknown_fields)]
struct PersonFile {
    #[serde(default, deserialize_with = "name")]
    name: String,
    #[serde(default, deserialize_with = "name")]
    clothing: String,
    #[serde(default, deserialize_with = "name")]
    phone: String,
    #[serde(default, deserialize_with = "note")]
    note: String,
}

#[derive(Deserialize)]
#[serde(rename = "Carried", deny_unknown_fields)]
struct CarriedFile {
    what: KitFile,
    #[serde(default, deserialize_with = "note")]
    details: String,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename = "Kit")]
enum KitFile {
    Radio,
    Beacon,
    Flares,
    Phone,
    Lights,
    TowLine,
    SparePaddle,
    FirstAid,
    Shelter,
}

#[derive(Deserialize, Default)]
#[serde(rename = "Contact", deny_unknown_fields)]
struct ContactFile {
    #[serde(default, deserialize_with = "name")]
    name: String,
    #[serde(default, deserialize_with = "name")]
    phone: String,
    #[serde(default, deserialize_with = "name")]
    place: String,
}

#[derive(Deserialize)]
#[serde(rename = "Vehicle", deny_unknown_fields)]
struct VehicleFile {
    #[serde(default, deserialize_with = "name")]
    what: String,
    #[serde(default, deserialize_with = "name")]
    parked: String,
}

impl From<PeopleFile> for People {
    fn from(file: PeopleFile) -> People {
        let ContactFile { name, phone, place } = file.contact;
        People {
            group: file.group,
            boats: file.boats,
            kit: file.kit,
            experience: file.experience,
            medical: file.medical,
            contact: Contact { name, phone, place },
            vehicles: file.vehicles,
        }
    }
}

impl From<KitFile> for Kit {
    fn from(file: KitFile) -> Kit {
        match file {
            KitFile::Radio => Kit::Radio,
            KitFile::Beacon => Kit::Beacon,
            KitFile::Flares => Kit::Flares,
            KitFile::Phone => Kit::Phone,
            KitFile::Lights => Kit::Lights,
            KitFile::TowLine => Kit::TowLine,
            KitFile::SparePaddle => Kit::SparePaddle,
            KitFile::FirstAid => Kit::FirstAid,
            KitFile::Shelter => Kit::Shelter,
        }
    }
}

// Bounds are checked while a value is read, so that the error stands at its place in the file.

fn version<'de, D: Deserializer<'de>>(d: D) -> Result<(), D::Error> {
    match u32::deserialize(d)? {
        VERSION => Ok(()),
        other => Err(D::Error::custom(format!(
            "version {other} is not known here; this program reads version {VERSION}"
        ))),
    }
}

/// A line of at most `most` characters, cleaned.
fn line<'de, D: Deserializer<'de>>(d: D, most: usize) -> Result<String, D::Error> {
    let text = String::deserialize(d)?;
    match text.trim().chars().count() {
        count if count > most => {
            Err(D::Error::custom(format!("this has {count} characters; {most} is the most")))
        }
        _ => Ok(clean(&text, most)),
    }
}

fn name<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    line(d, NAME)
}

fn note<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    line(d, NOTE)
}

fn boats<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Boat>, D::Error> {
    list(d, "boats", People::MOST_BOATS, |_, BoatFile { kind, colours, crew }| {
        Ok(Boat { kind, colours, crew })
    })
}

fn crew<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Person>, D::Error> {
    list(d, "people in a boat", People::MOST_CREW, |_, person| {
        let PersonFile { name, clothing, phone, note } = person;
        Ok(Person { name, clothing, phone, note })
    })
}

fn vehicles<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Vehicle>, D::Error> {
    list(d, "vehicles", People::MOST_VEHICLES, |_, VehicleFile { what, parked }| {
        Ok(Vehicle { what, parked })
    })
}

fn kit<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Carried>, D::Error> {
    list(d, "kinds of kit", Kit::ALL.len(), |before: &[Carried], CarriedFile { what, details }| {
        let what = Kit::from(what);
        match before.iter().any(|carried| carried.what == what) {
            true => Err(format!("“{what}” is given twice; once, with all details, would be right")),
            false => Ok(Carried { what, details }),
        }
    })
}

/// At most so many, each taken by `take`, which sees those before it; a list that goes on for ever is not read to its
/// end.
fn list<'de, D, F, T>(
    d: D,
    what: &'static str,
    most: usize,
    take: impl FnMut(&[T], F) -> Result<T, String>,
) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    F: Deserialize<'de>,
{
    d.deserialize_seq(List { what, most, take, read: PhantomData, taken: PhantomData })
}

struct List<F, T, Take> {
    what: &'static str,
    most: usize,
    take: Take,
    read: PhantomData<F>,
    taken: PhantomData<T>,
}

impl<'de, F, T, Take> Visitor<'de> for List<F, T, Take>
where
    F: Deserialize<'de>,
    Take: FnMut(&[T], F) -> Result<T, String>,
{
    type Value = Vec<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a list of {}", self.what)
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut seq: A) -> Result<Vec<T>, A::Error> {
        let mut taken = Vec::new();
        while let Some(element) = seq.next_element()? {
            if taken.len() == self.most {
                let message = format!("there are more than {} {}, the most", self.most, self.what);
                return Err(de::Error::custom(message));
            }
            taken.push((self.take)(&taken, element).map_err(de::Error::custom)?);
        }
        Ok(taken)
    }
}

fn described(error: &SpannedError, text: &str) -> Wrong {
    let (line, column) = (error.span.start.line, error.span.start.col);
    Wrong { line, column, message: in_words(error, text, "file of people") }
}
