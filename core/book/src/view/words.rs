//! Words that rows are found by: folded, so that upper case and accents make no difference.
//!
//! Only how text is folded; which words a row is found by is said where the row is made.

/// Text in lower case, without accents, its spaces single. What is folded is only compared,
/// never shown.
///
/// ```
/// use sward_book::view::words::fold;
/// assert_eq!(fold("  Jardín  de la PEÑA "), "jardin de la pena");
/// ```
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    let mut space = false;
    for c in text.chars().flat_map(char::to_lowercase) {
        if c.is_whitespace() || c.is_control() {
            space = !folded.is_empty();
            continue;
        }
        // Accents that are written as marks of their own.
        if ('\u{300}'..='\u{36f}').contains(&c) {
            continue;
        }
        if space {
            folded.push(' ');
            space = false;
        }
        match base(c) {
            Some(base) => folded.push_str(base),
            None => folded.push(c),
        }
    }
    folded
}

/// The plain letters of a letter of Latin-1 or Latin Extended-A, in lower case.
fn base(c: char) -> Option<&'static str> {
    Some(match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' | 'ă' | 'ą' => "a",
        'æ' => "ae",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' | 'ð' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'ĵ' => "j",
        'ķ' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' => "l",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'ō' | 'ŏ' | 'ő' => "o",
        'œ' => "oe",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' => "s",
        'ß' => "ss",
        'ţ' | 'ť' | 'ŧ' => "t",
        'ù' | 'ú' | 'û' | 'ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => "u",
        'ŵ' => "w",
        'ý' | 'ÿ' | 'ŷ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        _ => return None,
    })
}

/// Several texts in one, each folded and on a line of its own, so that no word runs from one into
/// the next.
pub(crate) fn lines<'a>(texts: impl IntoIterator<Item = &'a str>) -> String {
    let mut lines: Vec<String> = Vec::new();
    for text in texts {
        let folded = fold(text);
        if !folded.is_empty() && !lines.contains(&folded) {
            lines.push(folded);
        }
    }
    lines.join("\n")
}

/// Whether `text` holds `part`, both folded.
pub(crate) fn holds(text: &str, part: &str) -> bool {
    fold(text).contains(&fold(part))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_accents_and_spaces_make_no_difference() {
        for (text, folded) in [
            ("", ""),
            (" \u{a0}\t", ""),
            ("Ñandú", "nandu"),
            ("nin\u{303}o", "nino"),
            ("STRAẞE", "strasse"),
            ("İzmir", "izmir"),
            ("a\u{0}b", "a b"),
            ("草坪", "草坪"),
        ] {
            assert_eq!(fold(text), folded, "{text:?}");
        }
        assert!(holds("Calle Peñón 5", "PENON"));
        assert!(!holds("Calle", "calles"));
    }

    #[test]
    fn no_word_runs_from_one_text_into_the_next() {
        assert_eq!(lines(["Ab", " ", "ab", "C d"]), "ab\nc d");
    }
}
