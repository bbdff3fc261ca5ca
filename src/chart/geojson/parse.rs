//! GeoJSON objects, read as a stream: one feature in memory at a time.

use std::fmt;

use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::coordinates::{self, Flat};
use super::guard::Place as Reached;
use super::{ImportError, Why};
use crate::clean::{NAME, clean};

/// A geometry by its type's name.
#[derive(Debug)]
pub(super) struct Geometry {
    pub(super) kind: String,
    pub(super) flat: Flat,
}

/// What is common to a whole reading.
pub(super) struct Context<'a> {
    /// Positions so far.
    pub(super) vertices: usize,
    /// How far the parser is.
    pub(super) place: Reached,
    /// What went wrong and where, when it was not the parser that found it.
    pub(super) fault: Option<ImportError>,
    /// Takes a feature: its name and its geometries.
    pub(super) take: &'a mut dyn FnMut(String, Vec<Geometry>) -> Result<(), Why>,
}

impl Context<'_> {
    /// Stops the parser for a reason of ours.
    pub(super) fn fail<E: Error>(&mut self, why: Why) -> E {
        let (line, column) = self.place.get();
        self.fault = Some(ImportError { line, column: column.max(1), why });
        E::custom("")
    }

    fn give<E: Error>(&mut self, object: Object) -> Result<(), E> {
        let Object { name, geometries, .. } = object;
        (self.take)(name, geometries).map_err(|why| self.fail(why))
    }
}

/// Where in a document an object stands, and so of which type it may be.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// The document itself.
    Document,
    /// In the `features` of a collection.
    Feature,
    /// In a feature or a collection of geometries.
    Geometry,
}

/// What an object held.
#[derive(Default)]
pub(super) struct Object {
    kind: String,
    name: String,
    flat: Option<Flat>,
    /// Those of its `geometry` or `geometries`; once it is closed also its own.
    geometries: Vec<Geometry>,
    has_features: bool,
}

/// Reads an object; the features in it are given to the context as they come.
pub(super) struct Reader<'a, 'b> {
    pub(super) context: &'a mut Context<'b>,
    pub(super) place: Place,
}

/// Reads a whole document.
pub(super) fn document<'de, D: Deserializer<'de>>(
    context: &mut Context<'_>,
    from: D,
) -> Result<(), D::Error> {
    let object = from.deserialize_any(Reader { context, place: Place::Document })?;
    if object.has_features { Ok(()) } else { context.give(object) }
}

impl<'b> Reader<'_, 'b> {
    fn inner(&mut self, place: Place) -> Reader<'_, 'b> {
        Reader { context: &mut *self.context, place }
    }

    fn member<'de, A: MapAccess<'de>>(
        &mut self,
        key: &str,
        object: &mut Object,
        map: &mut A,
    ) -> Result<(), A::Error> {
        match key {
            "type" => object.kind = clean(&map.next_value::<String>()?, NAME),
            "coordinates" => object.flat = Some(map.next_value_seed(Coordinates(self.context))?),
            "geometry" => {
                let inner = map.next_value_seed(self.inner(Place::Geometry))?;
                object.geometries = inner.geometries;
            }
            "geometries" => object.geometries = map.next_value_seed(Geometries(self.context))?,
            "properties" => {
                object.name = map
                    .next_value::<Option<Properties>>()?
                    .map_or_else(String::new, Properties::name)
            }
            "features" if self.place == Place::Document => {
                object.has_features = true;
                map.next_value_seed(Features(self.context))?;
            }
            "crs" => {
                let crs = map.next_value::<Option<Crs>>()?;
                if let Some(name) = crs.and_then(Crs::foreign) {
                    return Err(self.context.fail(Why::CoordinateSystem(name)));
                }
            }
            _ => {
                map.next_value::<IgnoredAny>()?;
            }
        }
        Ok(())
    }

    /// Holds the object against its type.
    fn close<E: Error>(self, mut object: Object) -> Result<Object, E> {
        let kind = object.kind.as_str();
        let wanted = match (self.place, kind, depth_of(kind)) {
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
                    return Err(self.context.fail(Why::Nesting { kind, found, wanted: depth }));
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
            Some(wanted) => Err(self.context.fail(Why::Type { found: object.kind, wanted })),
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

impl<'de> DeserializeSeed<'de> for Reader<'_, '_> {
    type Value = Object;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Object, D::Error> {
        from.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Reader<'_, '_> {
    type Value = Object;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a GeoJSON object")
    }

    /// The geometry of a feature may be null.
    fn visit_unit<E: Error>(self) -> Result<Object, E> {
        match self.place {
            Place::Geometry => Ok(Object::default()),
            _ => Err(E::invalid_type(serde::de::Unexpected::Unit, &self)),
        }
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<Object, A::Error> {
        let mut object = Object::default();
        while let Some(key) = map.next_key::<String>()? {
            self.member(&key, &mut object, &mut map)?;
        }
        self.close(object)
    }
}

/// Reads `coordinates`.
struct Coordinates<'a, 'b>(&'a mut Context<'b>);

impl<'de> DeserializeSeed<'de> for Coordinates<'_, '_> {
    type Value = Flat;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Flat, D::Error> {
        coordinates::read(self.0, from)
    }
}

/// Reads `features` and gives each to the context.
struct Features<'a, 'b>(&'a mut Context<'b>);

impl<'de> DeserializeSeed<'de> for Features<'_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for Features<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of features")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        while let Some(object) =
            list.next_element_seed(Reader { context: &mut *self.0, place: Place::Feature })?
        {
            self.0.give(object)?;
        }
        Ok(())
    }
}

/// Reads `geometries`.
struct Geometries<'a, 'b>(&'a mut Context<'b>);

impl<'de> DeserializeSeed<'de> for Geometries<'_, '_> {
    type Value = Vec<Geometry>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Vec<Geometry>, D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for Geometries<'_, '_> {
    type Value = Vec<Geometry>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of geometries")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<Geometry>, A::Error> {
        let mut all = Vec::new();
        while let Some(object) =
            list.next_element_seed(Reader { context: &mut *self.0, place: Place::Geometry })?
        {
            all.extend(object.geometries);
        }
        Ok(all)
    }
}

/// The properties in which a name is looked for, in this order.
#[derive(Deserialize)]
struct Properties {
    #[serde(default)]
    name: Text,
    #[serde(default, rename = "Name")]
    title_case: Text,
    #[serde(default, rename = "NAME")]
    capitals: Text,
}

impl Properties {
    fn name(self) -> String {
        let names = [self.name, self.title_case, self.capitals].map(|Text(name)| name);
        names.into_iter().find(|name| !name.is_empty()).unwrap_or_default()
    }
}

/// A string; empty when it is something else, which is not kept.
#[derive(Default)]
struct Text(String);

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Text, D::Error> {
        from.deserialize_any(TextVisitor)
    }
}

struct TextVisitor;

impl<'de> Visitor<'de> for TextVisitor {
    type Value = Text;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_str<E>(self, text: &str) -> Result<Text, E> {
        Ok(Text(clean(text, NAME)))
    }

    fn visit_bool<E>(self, _: bool) -> Result<Text, E> {
        Ok(Text::default())
    }

    fn visit_i64<E>(self, _: i64) -> Result<Text, E> {
        Ok(Text::default())
    }

    fn visit_u64<E>(self, _: u64) -> Result<Text, E> {
        Ok(Text::default())
    }

    fn visit_f64<E>(self, _: f64) -> Result<Text, E> {
        Ok(Text::default())
    }

    fn visit_unit<E>(self) -> Result<Text, E> {
        Ok(Text::default())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Text, A::Error> {
        while list.next_element::<IgnoredAny>()?.is_some() {}
        Ok(Text::default())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Text, A::Error> {
        while map.next_entry::<IgnoredAny, IgnoredAny>()?.is_some() {}
        Ok(Text::default())
    }
}

/// The `crs` member of GeoJSON before RFC 7946.
#[derive(Deserialize)]
struct Crs {
    #[serde(default)]
    properties: CrsProperties,
}

#[derive(Deserialize, Default)]
struct CrsProperties {
    #[serde(default)]
    name: String,
}

impl Crs {
    /// Its name, unless it is that of WGS 84 longitude and latitude.
    fn foreign(self) -> Option<String> {
        let name = self.properties.name;
        let own = name.is_empty() || name.ends_with("CRS84") || name.ends_with(":4326");
        (!own).then(|| clean(&name, NAME))
    }
}
