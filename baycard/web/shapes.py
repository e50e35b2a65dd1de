"""The schemas that several routes speak."""

from typing import Any

from marshmallow import Schema, fields


class ServerName(Schema):
    """Which installation answers, and how often it was restored."""

    instance = fields.String(required=True)
    epoch = fields.Integer(required=True)


class ServerSchema(Schema):
    """What every answer carries."""

    server = fields.Nested(ServerName, required=True)


class NamedSchema(Schema):
    """Something with an id and a name."""

    id = fields.String(required=True)
    name = fields.String(required=True)


class ProblemSchema(Schema):
    """Problem details (RFC 9457) with a code for programs and what the person can do."""

    type = fields.String(required=True)
    status = fields.Integer(required=True)
    code = fields.String(required=True)
    title = fields.String(required=True)
    do = fields.String(required=True)
    server = fields.Nested(ServerName, required=True)
    fields_ = fields.Dict(data_key="fields", metadata={"description": "what is wrong with which field"})


class AnyList(fields.Raw):
    """A list of anything, taken as it is: marshmallow's own goes through it value by value."""

    default_error_messages = {"invalid": "Not a valid list."}  # noqa: RUF012  # marshmallow reads it so

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> list[object]:  # noqa: ANN401
        if not isinstance(value, list):
            raise self.make_error("invalid")
        return value
