"""The plan of a whole series' wood."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the table; no series has such a plan yet."""
    op.create_table(
        "series_plan",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("series_id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.Column("job", sa.JSON(), nullable=False),
        sa.Column("answer", sa.JSON(), nullable=False),
        sa.Column("apart", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["series_id"], ["series.id"], name=op.f("fk_series_plan_series_id_series")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_series_plan")),
        sa.UniqueConstraint("series_id", name=op.f("uq_series_plan_series_id")),
    )
