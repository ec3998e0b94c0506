//! Lists of amounts as people write them, on one line or on several.
//!
//! What a piece means is [`super::Entered`]'s to read.

/// The pieces of a list: set apart by semicolons, by lines, or by commas with a blank behind them.
///
/// A comma between two digits sets nothing apart, since it may be a decimal's: whoever reads the
/// piece says so. Nothing between two others is a piece too, because something was left out there.
///
/// ```
/// use sward_rules::quantity::pieces;
/// assert_eq!(pieces("20, 21.5; 25 fl oz"), ["20", "21.5", "25 fl oz"]);
/// assert_eq!(pieces("1,5; 2\n3"), ["1,5", "2", "3"]);
/// assert_eq!(pieces("1, , 2,\n\n"), ["1", "", "2"]);
/// ```
pub fn pieces(text: &str) -> Vec<&str> {
    let mut all = Vec::new();
    let lines = text.lines().map(str::trim);
    for line in lines.filter(|line| !line.is_empty()) {
        let mut rest = line.strip_suffix([',', ';']).unwrap_or(line);
        while let Some(at) = end_of_piece(rest) {
            all.push(rest[..at].trim());
            rest = &rest[at + 1..];
        }
        all.push(rest.trim());
    }
    all
}

fn end_of_piece(text: &str) -> Option<usize> {
    let mut marks = text.match_indices([',', ';']);
    let found =
        marks.find(|(at, mark)| *mark == ";" || text[at + 1..].starts_with(char::is_whitespace));
    found.map(|(at, _)| at)
}
