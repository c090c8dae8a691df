//! A pocket calculator: works out an equation as it is printed, with signs for what it does not know as numbers.
//!
//! Multiplication may be a dot or nothing; products and quotients go from left to right, as on a calculator.

use std::collections::BTreeMap;

/// The value of an expression; `None` where it is told in words or uses what a calculator has not.
pub(crate) fn value(text: &str, names: &BTreeMap<String, f64>) -> Option<f64> {
    let letters: Vec<char> = text.chars().collect();
    let mut reader = Reader { letters, at: 0, names };
    let value = reader.sum()?;
    reader.skip();
    (reader.at == reader.letters.len()).then_some(value)
}

struct Reader<'a> {
    letters: Vec<char>,
    at: usize,
    names: &'a BTreeMap<String, f64>,
}

impl Reader<'_> {
    fn skip(&mut self) {
        while self.letters.get(self.at).is_some_and(|c| c.is_whitespace()) {
            self.at += 1;
        }
    }

    fn peek(&mut self) -> Option<char> {
        self.skip();
        self.letters.get(self.at).copied()
    }

    fn take(&mut self, wanted: &[char]) -> Option<char> {
        let next = self.peek().filter(|c| wanted.contains(c))?;
        self.at += 1;
        Some(next)
    }

    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        while let Some(sign) = self.take(&['+', '-', '−']) {
            let next = self.product()?;
            value = if sign == '+' { value + next } else { value - next };
        }
        Some(value)
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.signed()?;
        loop {
            if self.take(&['/']).is_some() {
                value /= self.signed()?;
            } else if self.take(&['·', '*', '×']).is_some() || self.begins_factor() {
                value *= self.signed()?;
            } else {
                return Some(value);
            }
        }
    }

    /// Whether what follows is a factor without a sign of multiplication.
    fn begins_factor(&mut self) -> bool {
        self.peek().is_some_and(|c| c.is_ascii_digit() || c.is_alphabetic() || "([{√⌈⌊∛½".contains(c))
    }

    fn signed(&mut self) -> Option<f64> {
        match self.take(&['-', '−']) {
            Some(_) => Some(-self.signed()?),
            None => self.power(),
        }
    }

    fn power(&mut self) -> Option<f64> {
        let mut value = self.primary()?;
        while let Some(c) = self.letters.get(self.at).copied() {
            let raised = match c {
                '²' => 2.0,
                '³' => 3.0,
                '⁴' => 4.0,
                '⁵' => 5.0,
                '⁶' => 6.0,
                '^' => {
                    self.at += 1;
                    value = value.powf(self.signed()?);
                    continue;
                }
                _ => break,
            };
            self.at += 1;
            value = value.powf(raised);
        }
        Some(value)
    }

    fn primary(&mut self) -> Option<f64> {
        let first = self.peek()?;
        if let Some(close) = [('(', ')'), ('[', ']'), ('{', '}')].iter().find(|(open, _)| *open == first).map(|pair| pair.1) {
            self.at += 1;
            let inside = self.sum()?;
            self.take(&[close])?;
            return Some(inside);
        }
        match first {
            '⌈' => {
                self.at += 1;
                let inside = self.sum()?;
                self.take(&['⌉'])?;
                return Some(inside.ceil());
            }
            '⌊' => {
                self.at += 1;
                let inside = self.sum()?;
                self.take(&['⌋'])?;
                return Some(inside.floor());
            }
            '|' => {
                self.at += 1;
                let inside = self.sum()?;
                self.take(&['|'])?;
                return Some(inside.abs());
            }
            '½' => {
                self.at += 1;
                return Some(0.5);
            }
            '√' => {
                self.at += 1;
                return Some(self.power()?.sqrt());
            }
            '∛' => {
                self.at += 1;
                return Some(self.power()?.cbrt());
            }
            'π' => {
                self.at += 1;
                return Some(std::f64::consts::PI);
            }
            _ => {}
        }
        if first.is_ascii_digit() { self.number() } else { self.word() }
    }

    fn number(&mut self) -> Option<f64> {
        let from = self.at;
        let is_number = |c: &char| c.is_ascii_digit() || *c == '.';
        while self.letters.get(self.at).is_some_and(is_number) {
            self.at += 1;
        }
        if self.letters.get(self.at) == Some(&'e') {
            let signed = usize::from(matches!(self.letters.get(self.at + 1), Some('-' | '+')));
            if self.letters.get(self.at + 1 + signed).is_some_and(char::is_ascii_digit) {
                self.at += 1 + signed;
                while self.letters.get(self.at).is_some_and(char::is_ascii_digit) {
                    self.at += 1;
                }
            }
        }
        self.letters[from..self.at].iter().collect::<String>().parse().ok()
    }

    fn word(&mut self) -> Option<f64> {
        let from = self.at;
        let of_word = |c: &char| (c.is_alphabetic() && *c != 'π') || c.is_ascii_digit() || matches!(c, '_' | '\'' | '₀'..='₉');
        while self.letters.get(self.at).is_some_and(of_word) {
            self.at += 1;
        }
        let word: String = self.letters[from..self.at].iter().collect();
        let function: fn(f64) -> f64 = match word.as_str() {
            "log" | "log10" => f64::log10,
            "ln" => f64::ln,
            "exp" => f64::exp,
            "sin" => f64::sin,
            "cos" => f64::cos,
            "tan" => f64::tan,
            "tanh" => f64::tanh,
            "acos" | "arccos" => f64::acos,
            "asin" | "arcsin" => f64::asin,
            "atan" | "arctan" => f64::atan,
            "min" | "max" => return self.extreme(&word),
            _ => return self.names.get(&word).copied(),
        };
        // `sin² x` is the square of the sine.
        let squared = self.letters.get(self.at) == Some(&'²');
        self.at += usize::from(squared);
        let value = function(self.power()?);
        Some(if squared { value * value } else { value })
    }

    fn extreme(&mut self, word: &str) -> Option<f64> {
        self.take(&['('])?;
        let mut value = self.sum()?;
        while self.take(&[',']).is_some() {
            let next = self.sum()?;
            value = if word == "min" { value.min(next) } else { value.max(next) };
        }
        self.take(&[')'])?;
        Some(value)
    }
}

#[test]
fn the_calculator_knows_its_rules() {
    let names = BTreeMap::from([("x".to_owned(), 3.0)]);
    let shown = |text: &str| value(text, &names);
    assert_eq!(shown("2 · 3 + 4"), Some(10.0));
    assert_eq!(shown("12/2 x"), Some(18.0));
    assert_eq!(shown("(1 + 2)² - x"), Some(6.0));
    assert_eq!(shown("2·x^2/9"), Some(2.0));
    assert_eq!(shown("√[16] log 100"), Some(8.0));
    assert_eq!(shown("max(1, x, 2) ⌈2.1⌉"), Some(9.0));
    assert_eq!(shown("-2² + 1.5e1"), Some(11.0));
    assert_eq!(shown("½ · |2 - x| ⌊4.9⌋"), Some(2.0));
    assert_eq!(shown("y + 1"), None);
    assert_eq!(shown("3 in"), None);
}
