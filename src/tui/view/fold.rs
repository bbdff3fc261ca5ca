//! Fields laid side by side in one line: those that matter least give way first, whole.

use super::ink;

/// Something said in a line, with how long it keeps its place there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Field {
    /// What is said.
    pub(super) text: String,
    /// Among fields that do not all fit, the one with the highest rank is left out first.
    pub(super) rank: u8,
}

impl Field {
    pub(super) fn new(rank: u8, text: impl Into<String>) -> Field {
        Field { text: text.into(), rank }
    }
}

/// The fields that fit into `columns` with `gap` columns between them, in their order. The last
/// one left is kept even if it does not fit, to be cut by the pen.
pub(super) fn fold(mut fields: Vec<Field>, gap: u16, columns: u16) -> Vec<Field> {
    fields.retain(|field| !field.text.is_empty());
    while fields.len() > 1 && length(&fields, gap) > columns {
        let last = fields.iter().enumerate().max_by_key(|(index, field)| (field.rank, *index));
        let Some((index, _)) = last else { break };
        fields.remove(index);
    }
    fields
}

fn length(fields: &[Field], gap: u16) -> u16 {
    let texts = fields.iter().map(|field| ink::width(&field.text));
    texts.reduce(|sum, one| sum.saturating_add(gap).saturating_add(one)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folded(columns: u16) -> String {
        let fields =
            vec![Field::new(1, "066°T"), Field::new(0, "075°M"), Field::new(2, "Teal Bight")];
        let kept = fold(fields, 2, columns);
        kept.into_iter().map(|field| field.text).collect::<Vec<_>>().join("  ")
    }

    #[test]
    fn what_matters_least_gives_way_first() {
        assert_eq!(folded(24), "066°T  075°M  Teal Bight");
        assert_eq!(folded(23), "066°T  075°M");
        assert_eq!(folded(11), "075°M");
        assert_eq!(folded(2), "075°M", "the last stays, for the pen to cut");
    }

    #[test]
    fn what_is_empty_takes_no_gap() {
        assert_eq!(fold(vec![Field::new(0, ""), Field::new(0, "a")], 2, 9).len(), 1);
        assert_eq!(fold(Vec::new(), 2, 9), Vec::new());
    }
}
