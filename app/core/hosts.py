"""How much a host of films usually takes, in characters.

Common practice, from memory; a host's own help decides.
"""

from app.core.figures import limit

TITLE_MOST = limit("title.characters")
DESCRIPTION_MOST = limit("description.characters")
BEFORE_THE_FOLD = limit("description.before-the-fold")
