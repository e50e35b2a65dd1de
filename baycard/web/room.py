"""A room's routes: flask-smorest's blueprint with types, and with bodies that are read strictly."""

from collections.abc import Callable
from typing import Any, Protocol, TypeVar, cast

from flask_smorest import Blueprint
from marshmallow import Schema

from baycard.web.bodies import StrictJson

Route = TypeVar("Route", bound=Callable[..., Any])


class Decorator(Protocol):
    """Gives back the route it is put on."""

    def __call__(self, route: Route, /) -> Route:  # noqa: D102  # the class says it
        ...


class Room(Blueprint):  # type: ignore[misc]  # flask-smorest has no types
    """The routes of one room, described in the OpenAPI document under its name."""

    ARGUMENTS_PARSER = StrictJson()

    def __init__(self, name: str, prefix: str, description: str) -> None:
        super().__init__(name, __name__, url_prefix=prefix, description=description)

    def on(self, method: str, rule: str) -> Decorator:
        """Answer a method at an address."""
        return cast(Decorator, self.route(rule, methods=[method]))

    def takes(self, schema: type[Schema], location: str = "json") -> Decorator:
        """Read and check the request; the result is the route's first argument."""
        return cast(Decorator, self.arguments(schema, location=location))

    def gives(self, status: int, schema: type[Schema] | None = None, says: str | None = None) -> Decorator:
        """Describe the answer; routes write it themselves."""
        return cast(Decorator, self.response(status, schema, description=says))

    def described(self, **openapi: Any) -> Decorator:  # noqa: ANN401  # members of an OpenAPI operation
        """Add to the description what the other decorators cannot say."""
        return cast(Decorator, self.doc(**openapi))
