from typing import Any
def member_pages(run: Any) -> dict[str, Any]: raise NotImplementedError
def plan_picture(run: Any) -> str: raise NotImplementedError
def run_section_picture(run: Any) -> str: raise NotImplementedError
def shoring_pages(run: Any) -> dict[str, Any]: raise NotImplementedError
