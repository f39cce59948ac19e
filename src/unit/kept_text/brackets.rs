//! Brackets of a unit file and what stands in them, by its places in the text.

use ron2::ast::{AnonStructExpr, Expr, FieldsBody, SeqExpr, StructBody, StructField, TupleElement};
use ron2::error::Span;

/// How what stands in brackets is told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Each has a name, and they may stand in any order.
    Fields,
    /// Each has its place.
    Places,
    /// As many as there are.
    List,
}

/// A pair of brackets.
#[derive(Debug)]
pub(super) struct Brackets<'e> {
    pub(super) kind: Kind,
    /// The word before them; empty for none.
    word: &'e str,
    /// Past the opening one.
    pub(super) open_end: usize,
    /// At the closing one.
    pub(super) close_start: usize,
    pub(super) elements: Vec<Element<'e>>,
}

/// One thing in brackets.
#[derive(Debug)]
pub(super) struct Element<'e> {
    pub(super) name: Option<&'e str>,
    pub(super) value: &'e Expr<'e>,
    /// Where it begins, name and all.
    pub(super) start: usize,
    /// Where its value ends.
    pub(super) end: usize,
    /// Where its comma ends.
    pub(super) comma_end: Option<usize>,
}

impl<'e> Brackets<'e> {
    /// The brackets that a value consists of, perhaps with a word before them.
    pub(super) fn of(value: &'e Expr<'_>) -> Option<Self> {
        Some(match value {
            Expr::Unit(unit) => Self {
                kind: Kind::Fields,
                word: "",
                open_end: unit.span.start_offset + 1,
                close_start: unit.span.end_offset.checked_sub(1)?,
                elements: Vec::new(),
            },
            Expr::AnonStruct(AnonStructExpr {
                open_paren,
                fields,
                close_paren,
                ..
            }) => Self::new(Kind::Fields, "", open_paren, close_paren, fields, field),
            Expr::Struct(named) => {
                let word = named.name.name.as_ref();
                match named.body.as_ref()? {
                    StructBody::Fields(FieldsBody {
                        open_brace,
                        fields,
                        close_brace,
                        ..
                    }) => Self::new(Kind::Fields, word, open_brace, close_brace, fields, field),
                    StructBody::Tuple(body) => {
                        let (open, close) = (&body.open_paren, &body.close_paren);
                        Self::new(Kind::Places, word, open, close, &body.elements, place)
                    }
                }
            }
            Expr::Tuple(tuple) => {
                let (open, close) = (&tuple.open_paren, &tuple.close_paren);
                Self::new(Kind::Places, "", open, close, &tuple.elements, place)
            }
            Expr::Seq(SeqExpr {
                open_bracket,
                items,
                close_bracket,
                ..
            }) => Self::new(Kind::List, "", open_bracket, close_bracket, items, |item| {
                element(None, &item.expr, item.expr.span(), item.comma.as_ref())
            }),
            _ => return None,
        })
    }

    fn new<T>(
        kind: Kind,
        word: &'e str,
        open: &Span,
        close: &Span,
        elements: &'e [T],
        element: impl Fn(&'e T) -> Element<'e>,
    ) -> Self {
        Self {
            kind,
            word,
            open_end: open.end_offset,
            close_start: close.start_offset,
            elements: elements.iter().map(element).collect(),
        }
    }

    /// Whether another holds the same kind of thing.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        self.kind == other.kind && self.word == other.word
    }

    /// The element of a name, and its place among them.
    pub(super) fn named(&self, name: Option<&str>) -> Option<(usize, &Element<'e>)> {
        let mut elements = self.elements.iter().enumerate();
        elements.find(|(_, element)| element.name.is_some() && element.name == name)
    }
}

fn field<'e>(field: &'e StructField<'_>) -> Element<'e> {
    let name = Some(field.name.name.as_ref());
    element(name, &field.value, &field.name.span, field.comma.as_ref())
}

fn place<'e>(place: &'e TupleElement<'_>) -> Element<'e> {
    element(None, &place.expr, place.expr.span(), place.comma.as_ref())
}

fn element<'e>(
    name: Option<&'e str>,
    value: &'e Expr<'_>,
    begins: &Span,
    comma: Option<&Span>,
) -> Element<'e> {
    Element {
        name,
        value,
        start: begins.start_offset,
        end: value.span().end_offset,
        comma_end: comma.map(|comma| comma.end_offset),
    }
}
