//! Equations as they are printed, read: worked out like on a pocket calculator, or written as a formula of a workbook.
//!
//! Multiplication may be a dot or nothing; products and quotients go from left to right, as on a calculator. What is
//! told in words, or uses what a calculator has not, is not read.

use crate::substitute::substitute;
use rigwright_physics::FormulaRecord;
use rigwright_physics::control::gas::MOLAR_GAS_CONSTANT;
use std::collections::BTreeMap;

/// An expression.
#[derive(Clone, Debug, PartialEq)]
pub enum Expression {
    /// A number.
    Number(f64),
    /// A sign that stands for a number.
    Sign(String),
    /// Two expressions with a sign of calculation between them: `+`, `-`, `*`, `/` or `^`.
    Two(char, Box<Expression>, Box<Expression>),
    /// The opposite.
    Minus(Box<Expression>),
    /// A function of expressions.
    Of(Function, Vec<Expression>),
}

/// What a calculator can do with a number, or with several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Function {
    /// Logarithm to the base of ten.
    Log,
    /// Natural logarithm.
    Ln,
    /// Exponential.
    Exp,
    /// Sine.
    Sin,
    /// Cosine.
    Cos,
    /// Tangent.
    Tan,
    /// Hyperbolic tangent.
    Tanh,
    /// Inverse sine.
    Asin,
    /// Inverse cosine.
    Acos,
    /// Inverse tangent.
    Atan,
    /// Smallest of several.
    Min,
    /// Largest of several.
    Max,
    /// Next whole number above.
    Ceiling,
    /// Next whole number below.
    Floor,
    /// Size without its sign.
    Abs,
    /// Square root.
    Root,
    /// Cube root.
    CubeRoot,
}

/// Names of functions in equations, and in workbooks.
const FUNCTIONS: &[(&str, Function, &str)] = &[
    ("log", Function::Log, "LOG10"),
    ("log10", Function::Log, "LOG10"),
    ("ln", Function::Ln, "LN"),
    ("exp", Function::Exp, "EXP"),
    ("sin", Function::Sin, "SIN"),
    ("cos", Function::Cos, "COS"),
    ("tan", Function::Tan, "TAN"),
    ("tanh", Function::Tanh, "TANH"),
    ("asin", Function::Asin, "ASIN"),
    ("arcsin", Function::Asin, "ASIN"),
    ("acos", Function::Acos, "ACOS"),
    ("arccos", Function::Acos, "ACOS"),
    ("atan", Function::Atan, "ATAN"),
    ("arctan", Function::Atan, "ATAN"),
    ("min", Function::Min, "MIN"),
    ("max", Function::Max, "MAX"),
    ("abs", Function::Abs, "ABS"),
    ("sqrt", Function::Root, "SQRT"),
];

impl Expression {
    /// Reads an expression; `None` where it is told in words.
    pub fn read(text: &str) -> Option<Expression> {
        let mut reader = Reader { letters: text.chars().collect(), at: 0 };
        let read = reader.sum()?;
        reader.skip();
        (reader.at == reader.letters.len()).then_some(read)
    }

    /// Its value; `None` where a sign stands for nothing known.
    pub fn value(&self, names: &BTreeMap<String, f64>) -> Option<f64> {
        Some(match self {
            Expression::Number(number) => *number,
            Expression::Sign(sign) => *names.get(sign)?,
            Expression::Minus(of) => -of.value(names)?,
            Expression::Two(sign, left, right) => {
                let (left, right) = (left.value(names)?, right.value(names)?);
                match sign {
                    '+' => left + right,
                    '-' => left - right,
                    '*' => left * right,
                    '/' => left / right,
                    _ => left.powf(right),
                }
            }
            Expression::Of(function, of) => {
                let values: Option<Vec<f64>> = of.iter().map(|one| one.value(names)).collect();
                work_out(*function, &values?)?
            }
        })
    }

    /// The same as a formula of a workbook, each sign as `cell` names it; `None` where it has no cell.
    pub fn in_workbook(&self, cell: &dyn Fn(&str) -> Option<String>) -> Option<String> {
        Some(match self {
            Expression::Number(number) => format!("{number:?}"),
            Expression::Sign(sign) => cell(sign)?,
            // A workbook raises to a power after it has taken the opposite, so every pair has its brackets.
            Expression::Minus(of) => format!("(-{})", of.in_workbook(cell)?),
            Expression::Two(sign, left, right) => format!("({}{sign}{})", left.in_workbook(cell)?, right.in_workbook(cell)?),
            Expression::Of(function, of) => {
                let of: Option<Vec<String>> = of.iter().map(|one| one.in_workbook(cell)).collect();
                let of = of?.join(",");
                match function {
                    Function::Ceiling => format!("(-INT(-({of})))"),
                    Function::Floor => format!("INT({of})"),
                    Function::Root => format!("SQRT({of})"),
                    Function::CubeRoot => format!("(({of})^(1/3))"),
                    named => {
                        let name = FUNCTIONS.iter().find(|(_, function, _)| function == named)?.2;
                        format!("{name}({of})")
                    }
                }
            }
        })
    }

    /// The same with a sign replaced by an expression.
    fn with(self, name: &str, what: &Expression) -> Expression {
        match self {
            Expression::Sign(sign) if sign == name => what.clone(),
            Expression::Minus(of) => Expression::Minus(Box::new(of.with(name, what))),
            Expression::Two(sign, left, right) => {
                Expression::Two(sign, Box::new(left.with(name, what)), Box::new(right.with(name, what)))
            }
            Expression::Of(function, of) => Expression::Of(function, of.into_iter().map(|one| one.with(name, what)).collect()),
            other => other,
        }
    }
}

fn work_out(function: Function, values: &[f64]) -> Option<f64> {
    let first = *values.first()?;
    Some(match function {
        Function::Log => first.log10(),
        Function::Ln => first.ln(),
        Function::Exp => first.exp(),
        Function::Sin => first.sin(),
        Function::Cos => first.cos(),
        Function::Tan => first.tan(),
        Function::Tanh => first.tanh(),
        Function::Asin => first.asin(),
        Function::Acos => first.acos(),
        Function::Atan => first.atan(),
        Function::Min => values.iter().copied().fold(first, f64::min),
        Function::Max => values.iter().copied().fold(first, f64::max),
        Function::Ceiling => first.ceil(),
        Function::Floor => first.floor(),
        Function::Abs => first.abs(),
        Function::Root => first.sqrt(),
        Function::CubeRoot => first.cbrt(),
    })
}

/// The right side of a formula's equation, its inputs as signs `in0`, `in1`, ... in the record's order, helpers behind
/// commas put in. `None` where the equation is told in words or does not begin with the result's sign.
pub fn right_side(record: &FormulaRecord) -> Option<Expression> {
    let signs: Vec<(&str, String)> =
        record.symbols.iter().enumerate().map(|(index, symbol)| (symbol.sign, format!("in{index}"))).collect();
    let put_in = substitute(record.equation, &signs)?;
    let mut clauses = clauses(&put_in).into_iter();
    let first = clauses.next()?;
    let (left, right) = first.split_once('=')?;
    if left.trim() != record.result.sign {
        return None;
    }
    let mut whole = Expression::read(right)?;
    let helpers: Vec<(String, Expression)> = clauses
        .filter_map(|clause| {
            let (name, text) = clause.split_once('=')?;
            Some((name.trim().to_owned(), Expression::read(text)?))
        })
        .collect();
    // Helpers may rest on those behind them.
    for _ in 0..helpers.len() {
        for (name, what) in &helpers {
            whole = whole.with(name, what);
        }
    }
    // The one constant that equations name without taking it as an input.
    Some(whole.with("R", &Expression::Number(MOLAR_GAS_CONSTANT)))
}

/// Splits at commas outside brackets.
pub fn clauses(text: &str) -> Vec<String> {
    let mut clauses = vec![String::new()];
    let mut depth = 0;
    for letter in text.chars() {
        depth += i32::from("([{".contains(letter)) - i32::from(")]}".contains(letter));
        match clauses.last_mut() {
            Some(_) if letter == ',' && depth == 0 => clauses.push(String::new()),
            Some(clause) => clause.push(letter),
            None => {}
        }
    }
    clauses
}

struct Reader {
    letters: Vec<char>,
    at: usize,
}

impl Reader {
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

    fn sum(&mut self) -> Option<Expression> {
        let mut read = self.product()?;
        while let Some(sign) = self.take(&['+', '-', '−']) {
            let next = self.product()?;
            read = two(if sign == '+' { '+' } else { '-' }, read, next);
        }
        Some(read)
    }

    fn product(&mut self) -> Option<Expression> {
        let mut read = self.signed()?;
        loop {
            if self.take(&['/']).is_some() {
                read = two('/', read, self.signed()?);
            } else if self.take(&['·', '*', '×']).is_some() || self.begins_factor() {
                read = two('*', read, self.signed()?);
            } else {
                return Some(read);
            }
        }
    }

    /// Whether what follows is a factor without a sign of multiplication.
    fn begins_factor(&mut self) -> bool {
        self.peek().is_some_and(|c| c.is_ascii_digit() || c.is_alphabetic() || "([{√⌈⌊∛½".contains(c))
    }

    fn signed(&mut self) -> Option<Expression> {
        match self.take(&['-', '−']) {
            Some(_) => Some(Expression::Minus(Box::new(self.signed()?))),
            None => self.power(),
        }
    }

    fn power(&mut self) -> Option<Expression> {
        let mut read = self.primary()?;
        while let Some(c) = self.letters.get(self.at).copied() {
            let raised = match c {
                '²' => 2.0,
                '³' => 3.0,
                '⁴' => 4.0,
                '⁵' => 5.0,
                '⁶' => 6.0,
                '^' => {
                    self.at += 1;
                    read = two('^', read, self.signed()?);
                    continue;
                }
                _ => break,
            };
            self.at += 1;
            read = two('^', read, Expression::Number(raised));
        }
        Some(read)
    }

    fn inside(&mut self, close: char, function: Option<Function>) -> Option<Expression> {
        self.at += 1;
        let inside = self.sum()?;
        self.take(&[close])?;
        Some(match function {
            Some(function) => Expression::Of(function, vec![inside]),
            None => inside,
        })
    }

    fn root(&mut self, function: Function) -> Option<Expression> {
        self.at += 1;
        Some(Expression::Of(function, vec![self.power()?]))
    }

    fn primary(&mut self) -> Option<Expression> {
        match self.peek()? {
            '(' => self.inside(')', None),
            '[' => self.inside(']', None),
            '{' => self.inside('}', None),
            '⌈' => self.inside('⌉', Some(Function::Ceiling)),
            '⌊' => self.inside('⌋', Some(Function::Floor)),
            '|' => self.inside('|', Some(Function::Abs)),
            '√' => self.root(Function::Root),
            '∛' => self.root(Function::CubeRoot),
            '½' => self.constant(0.5),
            'π' => self.constant(std::f64::consts::PI),
            digit if digit.is_ascii_digit() => self.number(),
            _ => self.word(),
        }
    }

    fn constant(&mut self, value: f64) -> Option<Expression> {
        self.at += 1;
        Some(Expression::Number(value))
    }

    fn number(&mut self) -> Option<Expression> {
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
        self.letters[from..self.at].iter().collect::<String>().parse().ok().map(Expression::Number)
    }

    fn word(&mut self) -> Option<Expression> {
        let from = self.at;
        let of_word = |c: &char| (c.is_alphabetic() && *c != 'π') || c.is_ascii_digit() || matches!(c, '_' | '\'' | '₀'..='₉');
        while self.letters.get(self.at).is_some_and(of_word) {
            self.at += 1;
        }
        let word: String = self.letters[from..self.at].iter().collect();
        if word.is_empty() {
            return None;
        }
        let Some((_, function, _)) = FUNCTIONS.iter().find(|(name, ..)| *name == word) else {
            return Some(Expression::Sign(word));
        };
        if matches!(function, Function::Min | Function::Max) {
            self.take(&['('])?;
            let mut of = vec![self.sum()?];
            while self.take(&[',']).is_some() {
                of.push(self.sum()?);
            }
            self.take(&[')'])?;
            return Some(Expression::Of(*function, of));
        }
        // `sin² x` is the square of the sine.
        let squared = self.letters.get(self.at) == Some(&'²');
        self.at += usize::from(squared);
        let read = Expression::Of(*function, vec![self.power()?]);
        Some(if squared { two('^', read, Expression::Number(2.0)) } else { read })
    }
}

fn two(sign: char, left: Expression, right: Expression) -> Expression {
    Expression::Two(sign, Box::new(left), Box::new(right))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str) -> Option<f64> {
        Expression::read(text)?.value(&BTreeMap::from([("x".to_owned(), 3.0)]))
    }

    #[test]
    fn the_calculator_knows_its_rules() {
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

    #[test]
    fn a_workbook_reads_it_alike() {
        let cell = |sign: &str| (sign == "x").then(|| "B2".to_owned());
        let written = |text: &str| Expression::read(text).and_then(|read| read.in_workbook(&cell));
        assert_eq!(written("-x² + π/4 x").as_deref(), Some("((-(B2^2.0))+((3.141592653589793/4.0)*B2))"));
        assert_eq!(written("⌈x/2⌉ sin² x").as_deref(), Some("((-INT(-((B2/2.0))))*(SIN(B2)^2.0))"));
        assert_eq!(written("min(x, ln x, ∛x)").as_deref(), Some("MIN(B2,LN(B2),((B2)^(1/3)))"));
        assert_eq!(written("y"), None);
    }
}
