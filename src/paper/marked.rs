//! Markdown (GitHub's dialect): words of which nothing is taken for a sign, and tables.

/// A table without the columns in which nothing stands.
pub(crate) fn table<const N: usize>(
    out: &mut Vec<String>,
    heads: &[&str; N],
    rows: &[[String; N]],
) {
    let kept: Vec<usize> =
        (0..N).filter(|column| rows.iter().any(|row| !row[*column].is_empty())).collect();
    let heads: Vec<&str> = kept.iter().map(|column| heads[*column]).collect();
    let cells = |row: &[String; N]| kept.iter().map(|column| row[*column].clone()).collect();
    let rows: Vec<Vec<String>> = rows.iter().map(cells).collect();
    whole_table(out, &heads, &rows);
}

/// A table with all of its columns.
pub(crate) fn whole_table(out: &mut Vec<String>, heads: &[&str], rows: &[Vec<String>]) {
    let line = |cells: &[String]| format!("| {} |", cells.join(" | "));
    let escaped = |words: &[String]| words.iter().map(|words| escaped(words)).collect::<Vec<_>>();
    out.push(line(&heads.iter().map(|head| self::escaped(head)).collect::<Vec<_>>()));
    out.push(line(&vec!["---".to_owned(); heads.len()]));
    out.extend(rows.iter().map(|row| line(&escaped(row))));
}

/// Words of which nothing is taken for a sign of Markdown or of HTML.
pub(crate) fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '#' | '|' | '~' => out.extend(['\\', letter]),
            _ => out.push(letter),
        }
    }
    out
}
