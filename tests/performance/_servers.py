"""What the API is held against: bare FastAPI applications, served the same way."""

from __future__ import annotations

from fastapi import FastAPI
from pydantic import BaseModel


class Quantity(BaseModel):
    """A number with its unit."""

    value: float
    unit: str


class Echo(BaseModel):
    """A request as large as the real one, with a small answer."""

    inputs: dict[str, Quantity]
    region: str


class Small(BaseModel):
    """A small answer."""

    count: int
    region: str
    values: dict[str, float]


def echo() -> FastAPI:
    """Return the echo of a request with a small answer, through FastAPI and pydantic."""
    app = FastAPI()

    @app.post("/echo")
    async def answer(body: Echo) -> Small:
        values = {name: item.value for name, item in body.inputs.items()}
        return Small(count=len(values), region=body.region, values=values)

    return app


def empty() -> FastAPI:
    """Return an application with one small route."""
    app = FastAPI()

    @app.get("/health/live")
    async def live() -> dict[str, str]:
        return {"status": "live"}

    return app
