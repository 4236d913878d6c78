"""The bench in a browser: recipes and kitchens as pages, on this machine only.

    from doughwright.web import serve
    serve("saltmarsh")

Only the ``serve`` command imports this package.
"""

from doughwright.web._app import app
from doughwright.web._serve import DEFAULT_PORT, serve

__all__ = ["DEFAULT_PORT", "app", "serve"]
