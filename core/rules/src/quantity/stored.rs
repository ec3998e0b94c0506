//! An amount in records: the text "decimal UCUM", in CBOR as in JSON.
//!
//! One amount has one form, so that equal records have equal bytes; any other text is refused.

use minicbor::decode::{Decoder, Error as DecodeError};
use minicbor::encode::{Encoder, Error as EncodeError, Write};
use minicbor::{Decode, Encode};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::Entered;

impl<C> Encode<C> for Entered {
    fn encode<W: Write>(
        &self,
        e: &mut Encoder<W>,
        _ctx: &mut C,
    ) -> Result<(), EncodeError<W::Error>> {
        e.str(&self.to_string())?.ok()
    }
}

impl<'b, C> Decode<'b, C> for Entered {
    fn decode(d: &mut Decoder<'b>, _ctx: &mut C) -> Result<Self, DecodeError> {
        let at = d.position();
        Self::from_canonical(d.str()?).map_err(|e| DecodeError::message(e.to_string()).at(at))
    }
}

impl Serialize for Entered {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Entered {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::from_canonical(&text).map_err(serde::de::Error::custom)
    }
}
