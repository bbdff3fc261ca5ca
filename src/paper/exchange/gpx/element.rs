//! The elements of GPX by name.

/// An element; those of other namespaces and unknown ones are [`Element::Foreign`] and [`Element::Unknown`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Element {
    Gpx,
    Metadata,
    Wpt,
    Rte,
    Rtept,
    Trk,
    Trkseg,
    Trkpt,
    Name,
    Cmt,
    Desc,
    Ele,
    Time,
    Link,
    Type,
    Sym,
    /// What a link is called.
    Text,
    /// Source and number.
    Class,
    /// Qualities of a fix.
    Quality,
    /// Author, licence, key words.
    About,
    /// What can be worked out again.
    Derived,
    Extensions,
    /// Of this program's namespace.
    OwnRoute,
    OwnPoint,
    OwnBetween,
    OwnLine,
    /// Of GPX's namespace, but not in GPX.
    Unknown,
    /// Of another namespace.
    Foreign,
}

impl Element {
    /// The element of GPX that is called so.
    pub(super) fn of_gpx(name: &str) -> Element {
        match name {
            "trkpt" => Element::Trkpt,
            "time" => Element::Time,
            "ele" => Element::Ele,
            "gpx" => Element::Gpx,
            "metadata" => Element::Metadata,
            "wpt" => Element::Wpt,
            "rte" => Element::Rte,
            "rtept" => Element::Rtept,
            "trk" => Element::Trk,
            "trkseg" => Element::Trkseg,
            "name" => Element::Name,
            "cmt" => Element::Cmt,
            "desc" => Element::Desc,
            "link" | "url" | "urlname" => Element::Link,
            "type" => Element::Type,
            "sym" => Element::Sym,
            "text" => Element::Text,
            "src" | "number" => Element::Class,
            "magvar" | "geoidheight" | "fix" | "sat" | "hdop" | "vdop" | "pdop"
            | "ageofdgpsdata" | "dgpsid" | "speed" | "course" => Element::Quality,
            "author" | "email" | "copyright" | "keywords" => Element::About,
            "bounds" => Element::Derived,
            "extensions" => Element::Extensions,
            _ => Element::Unknown,
        }
    }

    /// The element of this program's own that is called so.
    pub(super) fn of_own(name: &str) -> Element {
        match name {
            "route" => Element::OwnRoute,
            "point" => Element::OwnPoint,
            "between" => Element::OwnBetween,
            "line" => Element::OwnLine,
            _ => Element::Foreign,
        }
    }
}
