from typing import Any
def candidates(results: Any) -> list[dict[str, Any]]: raise NotImplementedError
def chains(results: Any) -> list[Any]: raise NotImplementedError
def refusals(results: Any) -> list[Any]: raise NotImplementedError
def remarks(results: Any) -> list[str]: raise NotImplementedError
