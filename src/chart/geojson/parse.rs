//! GeoJSON objects, read as a stream: one feature in memory at a time.

use std::io::Read;

use super::coordinates::{self, Flat};
use super::json::Json;
use super::{ImportError, Why};
use crate::clean::{NAME, clean};

/// A geometry by its type's name.
#[derive(Debug)]
pub(crate) struct Geometry {
    pub(crate) kind: String,
    pub(crate) flat: Flat,
}

/// Takes a feature: its name and its geometries.
pub(crate) type Take<'t> = dyn FnMut(String, Vec<Geometry>) -> Result<(), Why> + 't;

/// Where in a document an object stands, and so of which type it may be.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    /// The document itself.
    Document,
    /// In the `features` of a collection.
    Feature,
    /// In a feature or a collection of geometries.
    Geometry,
}

/// What an object held.
#[derive(Default)]
struct Object {
    kind: String,
    name: String,
    flat: Option<Flat>,
    /// Those of its `geometry` or `geometries`; once it is closed also its own.
    geometries: Vec<Geometry>,
    has_features: bool,
}

/// Reads a document; the features in it are given on as they come.
pub(super) struct Parser<'a, 'p, 't, R> {
    pub(super) json: Json<'p, R>,
    /// How many more positions the file may have.
    pub(super) left: usize,
    /// How many it may have in all.
    pub(super) most: usize,
    pub(super) take: &'a mut Take<'t>,
}

impl<R: Read> Parser<'_, '_, '_, R> {
    /// Reads a whole document.
    pub(super) fn document(&mut self) -> Result<(), ImportError> {
        let object = self.object(Place::Document)?;
        if !object.has_features {
            self.give(object)?;
        }
        self.json.end()
    }

    fn give(&mut self, object: Object) -> Result<(), ImportError> {
        let Object { name, geometries, .. } = object;
        (self.take)(name, geometries).map_err(|why| self.json.fail(why))
    }

    /// The object that is next.
    fn object(&mut self, place: Place) -> Result<Object, ImportError> {
        match self.json.need("a value")? {
            b'{' => self.json.enter()?,
            // The geometry of a feature may be null.
            b'n' if place == Place::Geometry => {
                self.json.word("null")?;
                return Ok(Object::default());
            }
            _ => {
                self.json.take();
                return Err(self.json.syntax("a GeoJSON object should follow here"));
            }
        }
        let mut object = Object::default();
        let mut first = true;
        while self.json.goes_on(b'}', first, "an object")? {
            let key = self.json.key()?;
            self.member(&key, place, &mut object)?;
            first = false;
        }
        self.close(place, object)
    }

    fn member(&mut self, key: &str, place: Place, object: &mut Object) -> Result<(), ImportError> {
        match key {
            "type" => match self.text()? {
                Some(kind) => object.kind = clean(&kind, NAME),
                None => return Err(self.json.syntax("the type of an object is a text")),
            },
            "coordinates" => {
                let (json, left, most) = (&mut self.json, &mut self.left, self.most);
                let reader = coordinates::Reader { json, left, most, flat: Flat::default() };
                object.flat = Some(reader.read()?);
            }
            "geometry" => object.geometries = self.object(Place::Geometry)?.geometries,
            "geometries" => {
                let mut all = Vec::new();
                self.list(|parser| {
                    all.extend(parser.object(Place::Geometry)?.geometries);
                    Ok(())
                })?;
                object.geometries = all;
            }
            "properties" => object.name = self.name()?,
            "features" if place == Place::Document => {
                object.has_features = true;
                self.list(|parser| {
                    let object = parser.object(Place::Feature)?;
                    parser.give(object)
                })?;
            }
            "crs" => {
                if let Some(name) = self.crs()?.filter(|name| is_foreign(name)) {
                    return Err(self.json.fail(Why::CoordinateSystem(clean(&name, NAME))));
                }
            }
            _ => self.json.skip()?,
        }
        Ok(())
    }

    fn list(
        &mut self,
        mut element: impl FnMut(&mut Self) -> Result<(), ImportError>,
    ) -> Result<(), ImportError> {
        if self.json.need("a value")? != b'[' {
            self.json.take();
            return Err(self.json.syntax("a list should follow here"));
        }
        self.json.enter()?;
        let mut first = true;
        while self.json.goes_on(b']', first, "a list")? {
            element(self)?;
            first = false;
        }
        Ok(())
    }

    /// The text that is next; another value is passed over.
    fn text(&mut self) -> Result<Option<String>, ImportError> {
        if self.json.need("a value")? == b'"' {
            return self.json.string().map(Some);
        }
        self.json.skip()?;
        Ok(None)
    }

    /// Hands each member of the object that is next to `with`; another value is passed over.
    fn members(
        &mut self,
        mut with: impl FnMut(&mut Self, &str) -> Result<(), ImportError>,
    ) -> Result<(), ImportError> {
        if self.json.need("a value")? != b'{' {
            return self.json.skip();
        }
        self.json.enter()?;
        let mut first = true;
        while self.json.goes_on(b'}', first, "an object")? {
            let key = self.json.key()?;
            with(self, &key)?;
            first = false;
        }
        Ok(())
    }

    /// The name among the properties that are next: the first of three keys that has a text.
    fn name(&mut self) -> Result<String, ImportError> {
        const KEYS: [&str; 3] = ["name", "Name", "NAME"];
        let mut found = [const { String::new() }; KEYS.len()];
        self.members(|parser, key| {
            let place = KEYS.iter().position(|name| *name == key);
            match place.and_then(|place| found.get_mut(place)) {
                Some(place) => {
                    *place = parser.text()?.map_or_else(String::new, |name| clean(&name, NAME));
                }
                None => parser.json.skip()?,
            }
            Ok(())
        })?;
        Ok(found.into_iter().find(|name| !name.is_empty()).unwrap_or_default())
    }

    /// The name in the `crs` member of GeoJSON before RFC 7946.
    fn crs(&mut self) -> Result<Option<String>, ImportError> {
        let mut found = None;
        self.members(|parser, key| match key {
            "properties" => parser.members(|parser, key| {
                match key {
                    "name" => found = parser.text()?,
                    _ => parser.json.skip()?,
                }
                Ok(())
            }),
            _ => parser.json.skip(),
        })?;
        Ok(found)
    }

    /// Holds the object against its type.
    fn close(&mut self, place: Place, mut object: Object) -> Result<Object, ImportError> {
        let kind = object.kind.as_str();
        let wanted = match (place, kind, depth_of(kind)) {
            (Place::Document, "FeatureCollection", _) if object.has_features => None,
            (Place::Document, "FeatureCollection", _) => Some("one with `features`"),
            (Place::Document | Place::Feature, "Feature", _) => None,
            (Place::Document | Place::Geometry, "GeometryCollection", _) => None,
            (Place::Document | Place::Geometry, _, Some(depth)) => {
                let flat = object.flat.take().unwrap_or_default();
                if let Some(found) = flat.depth
                    && found != depth
                {
                    let kind = object.kind;
                    return Err(self.json.fail(Why::Nesting { kind, found, wanted: depth }));
                }
                object.geometries.push(Geometry { kind: object.kind.clone(), flat });
                None
            }
            (Place::Document, ..) => Some("a feature collection, a feature or a geometry"),
            (Place::Feature, ..) => Some("a feature"),
            (Place::Geometry, ..) => Some("a geometry"),
        };
        match wanted {
            None => Ok(object),
            Some(wanted) => Err(self.json.fail(Why::Type { found: object.kind, wanted })),
        }
    }
}

/// How deep the positions of a geometry are nested.
fn depth_of(kind: &str) -> Option<usize> {
    match kind {
        "Point" => Some(0),
        "MultiPoint" | "LineString" => Some(1),
        "MultiLineString" | "Polygon" => Some(2),
        "MultiPolygon" => Some(3),
        _ => None,
    }
}

/// Whether a coordinate system is another than WGS 84 longitude and latitude.
fn is_foreign(name: &str) -> bool {
    !(name.is_empty() || name.ends_with("CRS84") || name.ends_with(":4326"))
}
