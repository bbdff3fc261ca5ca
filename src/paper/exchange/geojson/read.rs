//! GeoJSON read: points, and lines as routes.

use std::collections::BTreeMap;
use std::fmt;
use std::io::Read;

use nav::Position;
use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};
use serde_json::{Map, Value};

use super::nested::Nested;
use super::own::OwnMember;
use crate::exchange::fault::{Fault, Place, Why, shown};
use crate::exchange::guard::Guard;
use crate::exchange::left::{Kind, Left};
use crate::exchange::{Foreign, ForeignPoint, ForeignRoute, MOST_NAME, MOST_NOTE, Own, line};

/// The largest file: a million positions. It is held in memory as a whole.
const MOST: usize = 64 << 20;

/// What a GeoJSON file holds.
pub(crate) fn read(from: impl Read) -> Result<Foreign, Fault> {
    let mut guard = Guard::new(from, usize::MAX);
    let mut text = String::new();
    let read = guard.by_ref().take(MOST as u64 + 1).read_to_string(&mut text);
    read.map_err(|error| guard.fault(error))?;
    if text.len() > MOST {
        return Err(Why::Large { what: "GeoJSON", most: MOST }.at(Place::START));
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let object: Object = serde_json::from_str(text).map_err(|error| fault(text, &error))?;
    let mut gathered = Gathered::default();
    let own = object.own_route(text)?;
    let title = object.title(&mut gathered.left);
    gathered.take(object).map_err(|why| why.at(Place::START))?;
    Ok(gathered.foreign(title, own))
}

/// An error of the reader at its place, in characters.
fn fault(text: &str, error: &serde_json::Error) -> Fault {
    let said = error.to_string();
    let said = said.rsplit_once(" at line ").map_or(said.as_str(), |(said, _)| said);
    let line = error.line().max(1);
    let before = text.lines().nth(line - 1).unwrap_or_default().as_bytes();
    let before = before.get(..error.column().saturating_sub(1).min(before.len()));
    let column = Place::START.after(before.unwrap_or_default()).column;
    let why = match (said.strip_prefix(SYSTEM), error.is_eof()) {
        (Some(system), _) => Why::System(shown(system)),
        (None, true) => Why::Ends,
        (None, false) => Why::Json(chart::clean::clean(said, 160)),
    };
    why.at(Place { line, column })
}

/// How the reader's error begins for a file that is not on WGS 84.
const SYSTEM: &str = "coordinate system ";

/// An object of GeoJSON, of whichever type.
#[derive(Deserialize)]
struct Object {
    #[serde(rename = "type")]
    kind: String,
    #[serde(default)]
    features: Features,
    geometry: Option<Box<Object>>,
    #[serde(default)]
    geometries: Vec<Object>,
    #[serde(default)]
    coordinates: Nested,
    properties: Option<Map<String, Value>>,
    #[serde(default, deserialize_with = "wgs84")]
    #[serde(rename = "crs")]
    _crs: (),
    strandline: Option<Value>,
    title: Option<Value>,
    name: Option<Value>,
}

/// The features of a collection, gathered one after the other, so that no more than one is held as it stands.
#[derive(Default)]
struct Features(Box<Gathered>);

impl<'de> Deserialize<'de> for Features {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Features, D::Error> {
        struct Each;
        impl<'de> Visitor<'de> for Each {
            type Value = Features;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a list of features")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Features, A::Error> {
                let mut gathered = Box::<Gathered>::default();
                while let Some(object) = seq.next_element::<Object>()? {
                    gathered.take(object).map_err(serde::de::Error::custom)?;
                }
                Ok(Features(gathered))
            }
        }
        d.deserialize_seq(Each)
    }
}

/// Holds a `crs`, which the RFC has dropped, against the one system that it allows.
fn wgs84<'de, D: Deserializer<'de>>(d: D) -> Result<(), D::Error> {
    let crs = Option::<Value>::deserialize(d)?.unwrap_or_default();
    if crs.is_null() {
        return Ok(());
    }
    let name = crs.pointer("/properties/name").and_then(Value::as_str);
    let name = name.map_or_else(|| crs.to_string(), str::to_owned);
    let known = ["CRS84", "EPSG:4326", "EPSG::4326"];
    if known.iter().any(|known| name.ends_with(known)) {
        return Ok(());
    }
    Err(serde::de::Error::custom(format!("{SYSTEM}{}", shown(&name))))
}

impl Object {
    /// What this program wrote about the route as a whole.
    fn own_route(&self, text: &str) -> Result<Option<Box<plan::Route>>, Fault> {
        let Some(own) = self.strandline.as_ref().and_then(Value::as_str) else { return Ok(None) };
        let route = plan::format::read(own).map_err(|error| {
            let at = text.find("\"strandline\"").unwrap_or_default();
            Why::Own(error.message)
                .at(Place::START.after(text.as_bytes().get(..at).unwrap_or_default()))
        })?;
        Ok(Some(Box::new(route)))
    }

    fn title(&self, left: &mut Left) -> String {
        let named = [&self.title, &self.name].into_iter().flatten().find_map(Value::as_str);
        line(named.unwrap_or_default(), MOST_NAME, left)
    }
}

/// What has been read.
#[derive(Default)]
struct Gathered {
    left: Left,
    points: Vec<ForeignPoint>,
    routes: Vec<ForeignRoute>,
    /// Points of a route of this program, and the lines of its legs by their numbers.
    own_points: Vec<(usize, ForeignPoint)>,
    own_legs: BTreeMap<usize, Vec<Position>>,
}

impl Gathered {
    fn take(&mut self, object: Object) -> Result<(), Why> {
        match object.kind.as_str() {
            "FeatureCollection" => {
                self.join(*object.features.0);
                Ok(())
            }
            "Feature" => self.feature(object),
            _ => self.geometry(&object, &Texts::default(), None),
        }
    }

    fn feature(&mut self, object: Object) -> Result<(), Why> {
        let texts = self.texts(object.properties.unwrap_or_default());
        let own = object.strandline.map(serde_json::from_value::<OwnMember>);
        let own = own.transpose().map_err(|error| Why::Own(shown(&error.to_string())))?;
        match object.geometry {
            Some(geometry) => self.geometry(&geometry, &texts, own),
            None => {
                self.left.count(Kind::Shapes);
                Ok(())
            }
        }
    }

    /// The name and the note among a feature's properties.
    fn texts(&mut self, properties: Map<String, Value>) -> Texts {
        let text = |keys: &[&str]| {
            let texts = keys.iter().filter_map(|key| properties.get(*key)?.as_str());
            texts.into_iter().find(|text| !text.trim().is_empty()).unwrap_or_default().to_owned()
        };
        let name = text(&["name", "title"]);
        let note = text(&["note", "cmt", "desc", "description"]);
        let known = [
            "name",
            "title",
            "note",
            "cmt",
            "desc",
            "description",
            "kind",
            "number",
            "reference",
            "stop_min",
            "bearing",
            "nautical_miles",
            "kilometres",
        ];
        if properties.iter().any(|(key, value)| !value.is_null() && !known.contains(&key.as_str()))
        {
            self.left.count(Kind::Columns);
        }
        Texts {
            name: line(&name, MOST_NAME, &mut self.left),
            note: line(&note, MOST_NOTE, &mut self.left),
        }
    }

    fn geometry(
        &mut self,
        object: &Object,
        texts: &Texts,
        own: Option<OwnMember>,
    ) -> Result<(), Why> {
        let Nested { depth, positions, heights, .. } = &object.coordinates;
        for _ in 0..*heights {
            self.left.count(Kind::Heights);
        }
        let wanted = match object.kind.as_str() {
            "Point" => 0,
            "MultiPoint" | "LineString" => 1,
            "MultiLineString" | "Polygon" => 2,
            "MultiPolygon" => 3,
            "GeometryCollection" => {
                return object
                    .geometries
                    .iter()
                    .try_for_each(|one| self.geometry(one, texts, None));
            }
            other => {
                let said = format!("“{}” is none of its types", shown(other));
                return Err(Why::Json(said));
            }
        };
        if depth.is_some_and(|depth| depth != wanted) {
            let said = format!("the coordinates of a {} are nested otherwise", object.kind);
            return Err(Why::Json(said));
        }
        match object.kind.as_str() {
            "Point" | "MultiPoint" => {
                positions.iter().try_for_each(|at| self.point(*at, texts, own.as_ref()))
            }
            "LineString" | "MultiLineString" => {
                self.line(uncut(object.coordinates.lines()), texts, own);
                Ok(())
            }
            _ => {
                self.left.count(Kind::Shapes);
                Ok(())
            }
        }
    }

    fn point(&mut self, at: Position, texts: &Texts, own: Option<&OwnMember>) -> Result<(), Why> {
        let facts = own.and_then(|own| own.facts.as_deref()).map(plan::format::read_point);
        let facts = facts.transpose().map_err(|error| Why::Own(error.message))?;
        let point = ForeignPoint {
            at,
            name: texts.name.clone(),
            note: texts.note.clone(),
            kept: None,
            own: facts.map(|facts| Box::new(Own::Facts(facts))),
        };
        match own.and_then(|own| own.point) {
            Some(number) => self.own_points.push((number, point)),
            None => self.points.push(point),
        }
        Ok(())
    }

    fn line(&mut self, line: Vec<Position>, texts: &Texts, own: Option<OwnMember>) {
        match own {
            Some(OwnMember { leg: Some(leg), .. }) => drop(self.own_legs.insert(leg, line)),
            // The line of a whole route beside it.
            Some(_) => {}
            None if line.is_empty() => self.left.count(Kind::Shapes),
            None => self.routes.push(ForeignRoute {
                name: texts.name.clone(),
                note: texts.note.clone(),
                points: line.into_iter().map(ForeignPoint::new).collect(),
                own: None,
            }),
        }
    }

    fn join(&mut self, other: Gathered) {
        let Gathered { left, points, routes, own_points, own_legs } = other;
        self.left.add(&left);
        self.points.extend(points);
        self.routes.extend(routes);
        self.own_points.extend(own_points);
        self.own_legs.extend(own_legs);
    }

    /// The file as a whole, the route of this program put together.
    fn foreign(mut self, title: String, own: Option<Box<plan::Route>>) -> Foreign {
        if !self.own_points.is_empty() {
            let mut points = Vec::new();
            for (number, point) in std::mem::take(&mut self.own_points) {
                if let Some(leg) = number.checked_sub(1).and_then(|leg| self.own_legs.remove(&leg))
                {
                    let inner = leg.get(1..leg.len().saturating_sub(1)).unwrap_or_default();
                    points.extend(inner.iter().map(|&at| ForeignPoint {
                        own: Some(Box::new(Own::Between)),
                        ..ForeignPoint::new(at)
                    }));
                }
                points.push(point);
            }
            let route =
                ForeignRoute { name: title.clone(), points, own, ..ForeignRoute::default() };
            self.routes.insert(0, route);
        }
        Foreign {
            title,
            waypoints: self.points,
            routes: self.routes,
            left_out: self.left.said(),
            ..Foreign::default()
        }
    }
}

/// The words about a feature.
#[derive(Default)]
struct Texts {
    name: String,
    note: String,
}

/// Lines as one, joined where they were cut along the 180th meridian.
fn uncut<'a>(lines: impl Iterator<Item = &'a [Position]>) -> Vec<Position> {
    let mut joined: Vec<Position> = Vec::new();
    for mut line in lines {
        let cut = |end: &Position, start: &Position| {
            end.lat == start.lat
                && end.lon.as_degrees().abs() == 180.0
                && end.lon.as_degrees() == -start.lon.as_degrees()
        };
        if let (Some(end), Some(start)) = (joined.last(), line.first())
            && cut(end, start)
        {
            joined.pop();
            line = line.get(1..).unwrap_or_default();
        }
        joined.extend(line);
    }
    joined
}
