//! What is one result: its name, its unit, what it means, how it is read off, and which working tells how it came about?
//!
//! A [`Fact`] is one result of a sort of [`Thing`]: the current of a run, the
//! mass of a bank. The facts of a thing stand in a table, once; JSON, its
//! schema, report and screens all read that.

use crate::engine::installation::Installation;
pub use crate::engine::installation::subject::Subject;
pub use crate::engine::installation::working::Topic;
use crate::plan::{Choice, Place, Spot, Value};
use crate::quantity::{Figure, Quantity, Unit};

/// Version of all names in JSON. It grows when a name is taken away or means
/// something else; new names come without.
pub const VERSION: u32 = 3;

/// One result of a sort of thing.
pub struct Fact<T: 'static> {
    /// Name in JSON and CSV; a number's unit is its ending.
    pub key: &'static str,
    /// Name for people: head of a column, or before the value.
    pub label: &'static str,
    /// What it is, in a few words.
    pub help: &'static str,
    /// What it holds.
    pub form: Form,
    /// The value of one thing.
    pub get: fn(&T, &At<'_>) -> Content,
    /// Its working.
    pub working: By<T>,
}

impl<T> Fact<T> {
    /// The same under another name for people.
    pub fn called(self, label: &'static str) -> Self {
        Fact { label, ..self }
    }
}

impl<T> Clone for Fact<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Fact<T> {}

/// Which working tells how a result came about.
pub enum By<T: 'static> {
    /// None: it is given, or said in words.
    Nothing,
    /// The one of this name, of the thing itself.
    Name(&'static str),
    /// The one of something else, if there is one.
    Topic(fn(&T, &At<'_>) -> Option<Topic>),
}

impl<T> Clone for By<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for By<T> {}

/// Where a thing stands.
#[derive(Clone, Copy)]
pub struct At<'a> {
    /// What is there, for names.
    pub site: &'a Installation,
    /// Which of its list.
    pub index: usize,
    /// Which of its list the thing is that it belongs to.
    pub within: usize,
    /// The chemistry as whose candidate it stands here.
    pub candidate: Option<&'a str>,
    /// Where a field stands in the text of the plan, if it is known.
    pub spot: &'a dyn Fn(Place) -> Option<Spot>,
    /// Whether workings are asked for.
    pub workings: bool,
    /// Whether each result says which working is its own.
    pub topics: bool,
}

impl<'a> At<'a> {
    /// In a plan whose text is not at hand.
    pub fn site(site: &'a Installation) -> Self {
        At { site, index: 0, within: 0, candidate: None, spot: &|_| None, workings: false, topics: false }
    }

    /// An item of a list of the thing that stands here.
    pub fn item(self, index: usize) -> Self {
        At { index, within: self.index, ..self }
    }
}

/// A sort of thing that has results.
pub trait Thing: Sized + 'static {
    /// Its name in the schema.
    const NAME: &'static str;
    /// What it is.
    const HELP: &'static str;
    /// Its results, in their order.
    const FACTS: &'static [Fact<Self>];
    /// What workings are about.
    fn subject(&self, at: &At<'_>) -> Subject;
}

impl<T: Thing> Fact<T> {
    /// Which working to look up.
    pub fn topic(&self, thing: &T, at: &At<'_>) -> Option<Topic> {
        match self.working {
            By::Nothing => None,
            By::Name(number) => Some(Topic { subject: thing.subject(at), number: number.into() }),
            By::Topic(topic) => topic(thing, at),
        }
    }

    /// The unit of its numbers.
    pub fn unit(&self) -> Option<Unit> {
        self.form.unit()
    }
}

/// What a result holds, known before there is any.
#[derive(Clone, Copy)]
pub enum Form {
    /// A number in this unit.
    Number(Unit),
    /// A number whose unit stands beside it.
    Figure,
    /// Three numbers in this unit: the lowest, the likely and the highest that is sound.
    Band(Unit),
    /// How many.
    Count,
    /// A multiple of something.
    Times,
    /// Words.
    Text,
    /// One of these words.
    Word(fn() -> Vec<&'static str>),
    /// Yes or no.
    Flag,
    /// A value of a plan file or of the catalogue: a number, words, yes or no, a list of them.
    Entry,
    /// The version of all names.
    Version,
    /// It is there only when asked for.
    Asked(&'static Form),
    /// It may not exist.
    Maybe(&'static Form),
    /// Several.
    List(&'static Form),
    /// Something with results of its own.
    Group(fn() -> Group),
}

impl Form {
    fn unit(self) -> Option<Unit> {
        match self {
            Form::Number(unit) | Form::Band(unit) => Some(unit),
            Form::Count => Some(Unit::Count),
            Form::Times => Some(Unit::Times),
            Form::Maybe(inner) => inner.unit(),
            _ => None,
        }
    }
}

/// A sort of thing, described.
pub struct Group {
    /// Its name in the schema.
    pub name: &'static str,
    /// What it is.
    pub help: &'static str,
    /// Its results.
    pub facts: Vec<Described>,
}

/// A result, described.
#[derive(Clone, Copy)]
#[allow(missing_docs)] // as in `Fact`
pub struct Described {
    pub key: &'static str,
    pub label: &'static str,
    pub help: &'static str,
    pub form: Form,
    /// Name of its working, if that is the thing's own.
    pub working: Option<&'static str>,
}

/// The sort of thing that `T` is.
pub fn group<T: Thing>() -> Group {
    let described = |f: &Fact<T>| {
        let working = if let By::Name(name) = f.working { Some(name) } else { None };
        Described { key: f.key, label: f.label, help: f.help, form: f.form, working }
    };
    Group { name: T::NAME, help: T::HELP, facts: T::FACTS.iter().map(described).collect() }
}

/// What a result holds in one design.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// There is none.
    Absent,
    /// Nobody asked for it.
    NotAsked,
    /// A number.
    Number(Figure),
    /// A number that may not be passed: people read it rounded down.
    Limit(Figure),
    /// A number whose unit is part of what is said.
    Figure(Figure),
    /// The lowest, the likely and the highest that is sound.
    Band([Figure; 3]),
    /// Words.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// A value of the plan file.
    Entry(Value),
    /// Several.
    List(Vec<Content>),
    /// Something with results of its own.
    Group(Vec<Named>),
}

/// A result under its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// Its key.
    pub key: &'static str,
    /// What it holds.
    pub content: Content,
    /// Its working, where that is asked for.
    pub topic: Option<Topic>,
}

/// All results of a thing.
pub fn contents<T: Thing>(thing: &T, at: &At<'_>) -> Vec<Named> {
    let topic = |f: &Fact<T>| if at.topics { f.topic(thing, at) } else { None };
    T::FACTS.iter().map(|f| Named { key: f.key, content: (f.get)(thing, at), topic: topic(f) }).collect()
}

/// A type that a result can have.
pub trait Kind {
    /// What it holds.
    const FORM: Form;
    /// As content.
    fn content(self) -> Content;
}

/// A number that may not be passed.
pub struct AtMost<Q>(pub Q);

/// What is there only when asked for.
pub struct Asked<K>(pub Option<K>);

/// A multiple of something, or a pure number.
pub struct Times(pub f64);

/// The version of all names.
pub struct Version;

/// A thing within a thing.
pub struct One<T> {
    content: Content,
    sort: std::marker::PhantomData<T>,
}

/// Things within a thing.
pub struct Many<T> {
    contents: Vec<Content>,
    sort: std::marker::PhantomData<T>,
}

/// The results of a thing within the one that stands here.
pub fn one<T: Thing>(thing: &T, at: &At<'_>) -> One<T> {
    One { content: Content::Group(contents(thing, &At { within: at.index, ..*at })), sort: std::marker::PhantomData }
}

/// The results of each thing of a list.
pub fn many<'a, T: Thing>(things: impl IntoIterator<Item = &'a T>, at: &At<'_>) -> Many<T> {
    let things = things.into_iter().enumerate();
    let contents = things.map(|(n, thing)| Content::Group(contents(thing, &at.item(n)))).collect();
    Many { contents, sort: std::marker::PhantomData }
}

impl<Q: Quantity> Kind for Q {
    const FORM: Form = Form::Number(Q::UNIT);
    fn content(self) -> Content {
        Content::Number(Figure::new(self.number(), Q::UNIT))
    }
}

impl<Q: Quantity> Kind for AtMost<Q> {
    const FORM: Form = Form::Number(Q::UNIT);
    fn content(self) -> Content {
        Content::Limit(Figure::new(self.0.number(), Q::UNIT))
    }
}

impl<K: Kind + 'static> Kind for Asked<K> {
    const FORM: Form = Form::Asked(&K::FORM);
    fn content(self) -> Content {
        self.0.map_or(Content::NotAsked, Kind::content)
    }
}

impl<K: Kind + 'static> Kind for Option<K> {
    const FORM: Form = Form::Maybe(&K::FORM);
    fn content(self) -> Content {
        self.map_or(Content::Absent, Kind::content)
    }
}

impl<K: Kind + 'static> Kind for Vec<K> {
    const FORM: Form = Form::List(&K::FORM);
    fn content(self) -> Content {
        Content::List(self.into_iter().map(Kind::content).collect())
    }
}

impl<K: Kind + 'static, const N: usize> Kind for [K; N] {
    const FORM: Form = Form::List(&K::FORM);
    fn content(self) -> Content {
        Content::List(self.into_iter().map(Kind::content).collect())
    }
}

impl<T: Thing> Kind for One<T> {
    const FORM: Form = Form::Group(group::<T>);
    fn content(self) -> Content {
        self.content
    }
}

impl<T: Thing> Kind for Many<T> {
    const FORM: Form = Form::List(&Form::Group(group::<T>));
    fn content(self) -> Content {
        Content::List(self.contents)
    }
}

/// A choice of the plan file, by its word there.
pub struct Word<C>(pub C);

impl<C: Choice> Kind for Word<C> {
    const FORM: Form = Form::Word(|| C::words().into_iter().map(|(key, _)| key).collect());
    fn content(self) -> Content {
        Content::Text(self.0.key().into())
    }
}

macro_rules! kinds {
    ($($type:ty: $form:ident, |$value:ident| $content:expr;)*) => {$(
        impl Kind for $type {
            const FORM: Form = Form::$form;
            fn content(self) -> Content {
                let $value = self;
                $content
            }
        }
    )*};
}

kinds! {
    String: Text, |text| Content::Text(text);
    &'static str: Text, |text| Content::Text(text.into());
    bool: Flag, |flag| Content::Flag(flag);
    usize: Count, |n| Content::Number(Figure::new(n as f64, Unit::Count));
    u32: Count, |n| Content::Number(Figure::new(f64::from(n), Unit::Count));
    Version: Version, |_version| Content::Number(Figure::number(f64::from(VERSION)));
    Times: Times, |times| Content::Number(Figure::new(times.0, Unit::Times));
    u64: Count, |n| Content::Number(Figure::new(n as f64, Unit::Count));
    Figure: Figure, |figure| Content::Figure(figure);
    Value: Entry, |value| Content::Entry(value);
}

/// The table of a thing's results. A line: constant, type, key, label, help,
/// how it is read off the thing (and where it stands), and the name of its
/// working if it has one; `[subject, name]` where that belongs to something else, the subject
/// `None` where there is none.
macro_rules! facts {
    (@by $t:pat_param, $at:pat_param,) => { $crate::engine::design::results::fact::By::Nothing };
    (@by $t:pat_param, $at:pat_param, $number:literal) => { $crate::engine::design::results::fact::By::Name($number) };
    (@by $t:pat_param, $at:pat_param, [$subject:expr, $number:expr]) => {
        $crate::engine::design::results::fact::By::Topic(|$t, $at| {
            let subject: Option<$crate::engine::design::results::fact::Subject> = $subject.into();
            Some($crate::engine::design::results::fact::Topic { subject: subject?, number: $number.into() })
        })
    };
    (
        $thing:ty, $name:literal, $about:literal, |$st:pat_param, $sat:pat_param| $subject:expr;
        $($id:ident: $kind:ty = $key:literal, $label:literal, $help:literal,
            |$t:pat_param, $at:pat_param| $get:expr $(, $by:tt)?;)*
    ) => {
        impl $thing {
            $(
                #[doc = concat!("The result `", $key, "`: ", $help, ".")]
                #[allow(unused_variables)] // what stands in `|…|` serves value and working
                pub const $id: $crate::engine::design::results::fact::Fact<$thing> =
                    $crate::engine::design::results::fact::Fact {
                        key: $key,
                        label: $label,
                        help: $help,
                        form: <$kind as $crate::engine::design::results::fact::Kind>::FORM,
                        get: |$t, $at| {
                            let value = || -> $kind { $get };
                            $crate::engine::design::results::fact::Kind::content(value())
                        },
                        working: facts!(@by $t, $at, $($by)?),
                    };
            )*
        }
        impl $crate::engine::design::results::fact::Thing for $thing {
            const NAME: &'static str = $name;
            const HELP: &'static str = $about;
            const FACTS: &'static [$crate::engine::design::results::fact::Fact<Self>] = &[$(Self::$id,)*];
            fn subject(
                &self,
                at: &$crate::engine::design::results::fact::At<'_>,
            ) -> $crate::engine::design::results::fact::Subject {
                let ($st, $sat) = (self, at);
                $subject
            }
        }
    };
}
pub(crate) use facts;
