//! How a sentence of this crate is written down: one variant a sentence, in English, with its name.
//!
//! A shell translates by the name (`NAMES`, which is also the tag in JSON) and the fields; what is
//! said, and when, stands beside its subject.

/// An enum of sentences: name, fields and English in one row.
///
/// With `stored`, each row and field begins with its number in records, which is its name there for
/// ever. `tag` is the key under which JSON has the sentence's name.
macro_rules! sentences {
    (
        $(#[$meta:meta])* stored $enum:ident, tag = $tag:tt;
        $($n:tt $variant:ident $({ $($i:tt $field:ident: $type:ty),+ $(,)? })?
            => ($text:tt $($args:tt)*);)+
    ) => {
        $(#[$meta])*
        #[derive(
            Debug, Clone, PartialEq, Eq, Hash, minicbor::Encode, minicbor::Decode,
            serde::Serialize, serde::Deserialize, thiserror::Error, strum::VariantNames,
        )]
        #[serde(tag = $tag, rename_all = "kebab-case", deny_unknown_fields)]
        #[strum(serialize_all = "kebab-case")]
        pub enum $enum {
            $(
                #[doc = concat!("“", $text, "”")]
                #[n($n)]
                #[error($text $($args)*)]
                $variant $({
                    $(
                        #[doc = concat!("The sentence's `", stringify!($field), "`.")]
                        #[n($i)]
                        $field: $type,
                    )+
                })?,
            )+
        }

        $crate::sentence::names!($enum);
        $crate::sentence::args!($enum; $([$($($field)+)?])+);
    };
    (
        $(#[$meta:meta])* $enum:ident, tag = $tag:tt;
        $($variant:ident $({ $($(#[$on_field:meta])* $field:ident: $type:ty),+ $(,)? })?
            => ($text:tt $($args:tt)*);)+
    ) => {
        $(#[$meta])*
        #[derive(
            Debug, Clone, PartialEq, Eq, serde::Serialize, thiserror::Error, strum::VariantNames,
        )]
        #[serde(tag = $tag, rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        pub enum $enum {
            $(
                #[doc = concat!("“", $text, "”")]
                #[error($text $($args)*)]
                $variant $({
                    $(
                        #[doc = concat!("The sentence's `", stringify!($field), "`.")]
                        $(#[$on_field])*
                        $field: $type,
                    )+
                })?,
            )+
        }

        $crate::sentence::names!($enum);
        $crate::sentence::args!($enum; $([$($($field)+)?])+);
    };
}

/// A closed list of words that stand in sentences; JSON has the bare name. With numbers the words
/// are stored.
macro_rules! words {
    ($(#[$meta:meta])* stored $enum:ident; $($n:tt $variant:ident => $text:tt;)+) => {
        $(#[$meta])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, Hash, minicbor::Encode, minicbor::Decode,
            serde::Serialize, serde::Deserialize, thiserror::Error, strum::VariantNames,
        )]
        #[cbor(index_only)]
        #[serde(rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        pub enum $enum {
            $(
                #[doc = concat!("“", $text, "”")]
                #[n($n)]
                #[error($text)]
                $variant,
            )+
        }

        $crate::sentence::names!($enum);
    };
    ($(#[$meta:meta])* $enum:ident; $($variant:ident => $text:tt;)+) => {
        $(#[$meta])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, thiserror::Error,
            strum::VariantNames,
        )]
        #[serde(rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        pub enum $enum {
            $(
                #[doc = concat!("“", $text, "”")]
                #[error($text)]
                $variant,
            )+
        }

        $crate::sentence::names!($enum);
    };
}

/// `NAMES` for an enum that derives strum's `VariantNames`.
macro_rules! names {
    ($enum:ident) => {
        impl $enum {
            /// Every name, as JSON has it, in the order of this enum.
            pub const NAMES: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;
        }
    };
}

/// `ARGS` for an enum of sentences.
macro_rules! args {
    ($enum:ident; $([$($field:ident)*])+) => {
        impl $enum {
            /// What is put into each sentence, by its key in JSON, in the order of `NAMES`.
            pub const ARGS: &'static [&'static [&'static str]] =
                &[$(&[$(stringify!($field)),*]),+];
        }
    };
}

pub(crate) use {args, names, sentences, words};
