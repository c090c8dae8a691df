//! An equation with its numbers put in: `p = ρ g h` becomes `p = 1198.264 · 9.80665 · 2133.6`.
//!
//! Records write equations as plain text for people. What is left of an equals sign stays; on the right every word
//! that is a symbol's sign is replaced, and a dot is put between two numbers that stand side by side. Words that are
//! no sign (functions, helpers that the record defines behind a comma) stay as they are.

/// The equation with the value of each sign put in, both as text. `None` when no sign occurs in it: a formula that is
/// told in words.
pub(crate) fn substitute(equation: &str, signs: &[(&str, String)]) -> Option<String> {
    let mut out = String::new();
    let mut replaced = false;
    for (index, clause) in equation.split_inclusive(',').enumerate() {
        // Inside brackets a comma separates arguments, and there is no left side to keep.
        let (left, right) = match clause.find('=') {
            Some(at) if is_definition(&clause[..at]) || index == 0 => clause.split_at(at + 1),
            _ => ("", clause),
        };
        out.push_str(left);
        replaced |= put_in(right, signs, &mut out);
    }
    replaced.then_some(out)
}

/// Whether what stands left of an equals sign is one word, as in `, y = ...`.
fn is_definition(left: &str) -> bool {
    let left = left.trim();
    token(left) == Some(left)
}

fn put_in(text: &str, signs: &[(&str, String)], out: &mut String) -> bool {
    let mut replaced = false;
    let (mut after_number, mut after_value) = (false, false);
    let mut gap = false;
    let mut rest = text;
    while let Some(first) = token(rest) {
        let sign = sign_at(rest, signs);
        let token = sign.map_or(first, |(sign, _)| *sign);
        rest = &rest[token.len()..];
        if token.trim().is_empty() {
            gap = true;
            continue;
        }
        // A word with a bracket right behind it is a function.
        let value = sign.filter(|_| !(token.ends_with(is_of_word) && rest.starts_with('('))).map(|(_, value)| value);
        let number = value.is_some() || token.starts_with(|c: char| c.is_ascii_digit());
        // `9 5/8` of the equation itself is one number.
        if after_number && number && (after_value || value.is_some()) {
            out.push_str(if gap { " · " } else { "·" });
        } else if gap {
            out.push(' ');
        }
        match value {
            Some(value) if value.starts_with('-') || value.contains('e') => {
                out.push('(');
                out.push_str(value);
                out.push(')');
            }
            Some(value) => out.push_str(value),
            None => out.push_str(token),
        }
        replaced |= value.is_some();
        // A power sign belongs to the number before it.
        let power = token.starts_with(['²', '³', '⁴', '⁵', '⁶']);
        after_number = number || (after_number && power);
        after_value = value.is_some() || (after_value && power);
        gap = false;
    }
    if gap {
        out.push(' ');
    }
    replaced
}

/// The longest sign that a text begins with as a whole word or words: some are two, as `sin α`.
fn sign_at<'a, 'b>(text: &str, signs: &'a [(&'b str, String)]) -> Option<&'a (&'b str, String)> {
    let whole = |sign: &str| match text.strip_prefix(sign) {
        Some(after) => !(sign.ends_with(is_of_word) && after.starts_with(is_of_word)),
        None => false,
    };
    signs.iter().filter(|(sign, _)| !sign.is_empty() && whole(sign)).max_by_key(|(sign, _)| sign.len())
}

/// The first piece of a text: a word (a letter, then letters, digits, low lines, primes and low digits), a number,
/// spaces or a single other character.
fn token(text: &str) -> Option<&str> {
    let first = text.chars().next()?;
    let length = if first.is_whitespace() {
        run(text, char::is_whitespace)
    } else if first.is_ascii_digit() {
        number(text)
    } else if is_letter(first) {
        run(text, is_of_word)
    } else {
        first.len_utf8()
    };
    Some(&text[..length])
}

fn is_of_word(c: char) -> bool {
    is_letter(c) || c.is_ascii_digit() || matches!(c, '_' | '\'' | '₀'..='₉')
}

fn is_letter(c: char) -> bool {
    // `π` and `∂` are no one's sign; superscripts are powers.
    c.is_alphabetic() && c != 'π' && !matches!(c, 'ⁿ')
}

fn run(text: &str, of: impl Fn(char) -> bool) -> usize {
    text.find(|c: char| !of(c)).unwrap_or(text.len())
}

/// Length of a number with point and exponent.
fn number(text: &str) -> usize {
    let end = run(text, |c| c.is_ascii_digit() || c == '.');
    let after = &text[end..];
    let exponent = after.strip_prefix('e').map(|tail| tail.strip_prefix(['-', '+']).unwrap_or(tail));
    match exponent {
        Some(tail) if tail.starts_with(|c: char| c.is_ascii_digit()) => {
            let sign = after.len() - tail.len();
            end + sign + run(tail, |c| c.is_ascii_digit())
        }
        _ => end,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(equation: &str, signs: &[(&'static str, &str)]) -> Option<String> {
        let signs: Vec<(&str, String)> = signs.iter().map(|(sign, value)| (*sign, (*value).to_owned())).collect();
        substitute(equation, &signs)
    }

    #[test]
    fn numbers_take_the_place_of_signs() {
        let p = [("ρ", "1198.264"), ("g", "9.80665"), ("h", "2133.6")];
        assert_eq!(with("p = ρ g h", &p).as_deref(), Some("p = 1198.264 · 9.80665 · 2133.6"));
        let g = [("f", "0.005"), ("ρ", "1200"), ("v", "2.3"), ("D", "0.1")];
        assert_eq!(with("G = 2 f ρ v² / D", &g).as_deref(), Some("G = 2 · 0.005 · 1200 · 2.3² / 0.1"));
        let v = [("Q", "0.05"), ("D", "0.3"), ("d", "0.127")];
        assert_eq!(with("v = Q / (π/4 (D² - d²))", &v).as_deref(), Some("v = 0.05 / (π/4 (0.3² - 0.127²))"));
    }

    #[test]
    fn a_sign_is_a_whole_word() {
        let signs =
            [("f", "0.8"), ("p_burst", "5e7"), ("ρ_in", "1200"), ("ρ_out", "1000"), ("g", "9.8"), ("D", "100"), ("p", "1")];
        let put = with("p = f p_burst - (ρ_in - ρ_out) g D", &signs);
        assert_eq!(put.as_deref(), Some("p = 0.8 · (5e7) - (1200 - 1000) 9.8 · 100"));
    }

    #[test]
    fn a_function_and_a_mixed_number_stay_whole() {
        let put = with("z = z(p_r, T_r) D, D < 9 5/8", &[("p_r", "2"), ("T_r", "1.5"), ("D", "8.5"), ("z", "1")]);
        assert_eq!(put.as_deref(), Some("z = z(2, 1.5) 8.5, 8.5 < 9 5/8"));
    }

    #[test]
    fn a_sign_may_be_two_words() {
        let put = with("N = w sin α + cos α", &[("w", "579"), ("sin α", "0.5"), ("α", "0.52")]);
        assert_eq!(put.as_deref(), Some("N = 579 · 0.5 + cos 0.52"));
    }

    #[test]
    fn helpers_behind_a_comma_keep_their_names() {
        let put = with("f = a / Re^b, a = (log n + 3.93)/50, b = (1.75 - log n)/7", &[("Re", "24000"), ("n", "0.7")]);
        assert_eq!(put.as_deref(), Some("f = a / 24000^b, a = (log 0.7 + 3.93)/50, b = (1.75 - log 0.7)/7"));
    }

    #[test]
    fn numbers_that_touch_a_sign_are_multiplied() {
        assert_eq!(with("y = (2n+1) - 0.5e-3 x", &[("n", "0.7"), ("x", "-4")]).as_deref(), Some("y = (2·0.7+1) - 0.5e-3 · (-4)"));
        assert_eq!(with("told in words", &[("p", "1")]), None);
    }
}
