"""The first schema."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create every table."""
    op.create_table(
        "series",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("slug", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("summary", sa.Text(), nullable=False),
        sa.Column("disclosure", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_series")),
        sa.UniqueConstraint("slug", name=op.f("uq_series_slug")),
    )
    op.create_table(
        "settings",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("unit", sa.String(length=2), nullable=False),
        sa.Column("denominator", sa.Integer(), nullable=False),
        sa.Column("decimal", sa.Boolean(), nullable=False),
        sa.Column("both_systems", sa.Boolean(), nullable=False),
        sa.Column("currency", sa.String(length=3), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("shop", sa.JSON(), nullable=False),
        sa.Column("disclosure", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_settings")),
    )
    op.create_table(
        "episode",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("series_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("slug", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("opening", sa.Text(), nullable=False),
        sa.Column("introduces", sa.Text(), nullable=False),
        sa.Column("due_on", sa.Date(), nullable=True),
        sa.Column("video_url", sa.String(length=500), nullable=False),
        sa.Column("length_ms", sa.BigInteger(), nullable=True),
        sa.CheckConstraint("number >= 1", name=op.f("ck_episode_number_from_one")),
        sa.ForeignKeyConstraint(
            ["series_id"], ["series.id"], name=op.f("fk_episode_series_id_series")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_episode")),
        sa.UniqueConstraint("series_id", "number", name=op.f("uq_episode_series_id")),
    )
    op.create_table(
        "captions",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("cues", sa.Integer(), nullable=False),
        sa.Column("added_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_captions_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_captions")),
        sa.UniqueConstraint("episode_id", name=op.f("uq_captions_episode_id")),
    )
    op.create_table(
        "chapter",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("start_ms", sa.BigInteger(), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_chapter_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chapter")),
        sa.UniqueConstraint(
            "episode_id", "start_ms", name=op.f("uq_chapter_episode_id")
        ),
    )
    op.create_table(
        "design",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("form", sa.String(length=80), nullable=False),
        sa.Column("inputs", sa.JSON(), nullable=False),
        sa.Column("shop", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_design_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_design")),
        sa.UniqueConstraint("episode_id", name=op.f("uq_design_episode_id")),
    )
    op.create_table(
        "edited_block",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=40), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("facts", sa.String(length=64), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"],
            ["episode.id"],
            name=op.f("fk_edited_block_episode_id_episode"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_edited_block")),
        sa.UniqueConstraint(
            "episode_id", "key", name=op.f("uq_edited_block_episode_id")
        ),
    )
    op.create_table(
        "plan",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.Column("job", sa.JSON(), nullable=False),
        sa.Column("answer", sa.JSON(), nullable=False),
        sa.Column("cut_on", sa.Date(), nullable=True),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_plan_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan")),
    )
    with op.batch_alter_table("plan", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_plan_episode_id"), ["episode_id"], unique=False
        )

    op.create_table(
        "promise",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("video_ms", sa.BigInteger(), nullable=True),
        sa.Column("due_on", sa.Date(), nullable=True),
        sa.Column("kept_in", sa.Integer(), nullable=True),
        sa.Column("kept_how", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_promise_episode_id_episode")
        ),
        sa.ForeignKeyConstraint(
            ["kept_in"], ["episode.id"], name=op.f("fk_promise_kept_in_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_promise")),
    )
    with op.batch_alter_table("promise", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_promise_episode_id"), ["episode_id"], unique=False
        )

    op.create_table(
        "publication",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("frozen_at", sa.DateTime(), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("sheet", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"],
            ["episode.id"],
            name=op.f("fk_publication_episode_id_episode"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_publication")),
        sa.UniqueConstraint(
            "episode_id", "revision", name=op.f("uq_publication_episode_id")
        ),
    )
    op.create_table(
        "step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("detail", sa.Text(), nullable=False),
        sa.Column("tool", sa.String(length=80), nullable=False),
        sa.Column("set_up", sa.String(length=80), nullable=False),
        sa.Column("bench_minutes", sa.Integer(), nullable=False),
        sa.Column("waits", sa.JSON(), nullable=False),
        sa.Column("cautions", sa.JSON(), nullable=False),
        sa.Column("supplies", sa.JSON(), nullable=False),
        sa.Column("from_form", sa.Boolean(), nullable=False),
        sa.Column("done_at", sa.DateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_step_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step")),
        sa.UniqueConstraint("episode_id", "key", name=op.f("uq_step_episode_id")),
    )
    op.create_table(
        "used_item",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=8), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("quantity", sa.String(length=80), nullable=False),
        sa.Column("url", sa.String(length=500), nullable=False),
        sa.Column("given", sa.Boolean(), nullable=False),
        sa.Column("cost", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_used_item_episode_id_episode")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_used_item")),
    )
    with op.batch_alter_table("used_item", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_used_item_episode_id"), ["episode_id"], unique=False
        )

    op.create_table(
        "glue_up",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("design_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("strips", sa.JSON(), nullable=False),
        sa.Column("length_nm", sa.BigInteger(), nullable=False),
        sa.Column("width_nm", sa.BigInteger(), nullable=False),
        sa.Column("thickness_nm", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(
            ["design_id"], ["design.id"], name=op.f("fk_glue_up_design_id_design")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_glue_up")),
        sa.UniqueConstraint("design_id", "key", name=op.f("uq_glue_up_design_id")),
    )
    op.create_table(
        "movement",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("recorded_at", sa.DateTime(), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=True),
        sa.Column("plan_id", sa.Integer(), nullable=True),
        sa.Column("reverses_id", sa.Integer(), nullable=True),
        sa.Column("from_outside", sa.String(length=80), nullable=False),
        sa.Column("to_outside", sa.String(length=80), nullable=False),
        sa.Column("kerf", sa.String(length=80), nullable=False),
        sa.Column("chips", sa.String(length=80), nullable=False),
        sa.Column("scrap", sa.String(length=80), nullable=False),
        sa.Column("paid", sa.BigInteger(), nullable=False),
        sa.Column("written_off", sa.BigInteger(), nullable=False),
        sa.Column("currency", sa.String(length=3), nullable=False),
        sa.Column("supplier", sa.String(length=200), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_movement_episode_id_episode")
        ),
        sa.ForeignKeyConstraint(
            ["plan_id"], ["plan.id"], name=op.f("fk_movement_plan_id_plan")
        ),
        sa.ForeignKeyConstraint(
            ["reverses_id"],
            ["movement.id"],
            name=op.f("fk_movement_reverses_id_movement"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_movement")),
        sa.UniqueConstraint("reverses_id", name=op.f("uq_movement_reverses_id")),
    )
    op.create_table(
        "note",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=True),
        sa.Column("noted_at", sa.DateTime(), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("video_ms", sa.BigInteger(), nullable=True),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_note_episode_id_episode")
        ),
        sa.ForeignKeyConstraint(
            ["step_id"], ["step.id"], name=op.f("fk_note_step_id_step")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_note")),
    )
    with op.batch_alter_table("note", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_note_episode_id"), ["episode_id"], unique=False
        )

    op.create_table(
        "part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("design_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("species", sa.String(length=200), nullable=False),
        sa.Column("grain", sa.String(length=8), nullable=False),
        sa.Column("glue_up", sa.String(length=80), nullable=False),
        sa.Column("length_nm", sa.BigInteger(), nullable=False),
        sa.Column("width_nm", sa.BigInteger(), nullable=False),
        sa.Column("thickness_nm", sa.BigInteger(), nullable=False),
        sa.Column("blank_length_nm", sa.BigInteger(), nullable=False),
        sa.Column("blank_width_nm", sa.BigInteger(), nullable=False),
        sa.Column("blank_thickness_nm", sa.BigInteger(), nullable=False),
        sa.Column("volume", sa.String(length=80), nullable=False),
        sa.Column("outline", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["design_id"], ["design.id"], name=op.f("fk_part_design_id_design")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_part")),
        sa.UniqueConstraint("design_id", "key", name=op.f("uq_part_design_id")),
    )
    op.create_table(
        "photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=True),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("web_sha256", sa.String(length=64), nullable=False),
        sa.Column("thumb_sha256", sa.String(length=64), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("format", sa.String(length=8), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("taken_at", sa.String(length=32), nullable=False),
        sa.Column("taken_offset", sa.Integer(), nullable=True),
        sa.Column("added_at", sa.DateTime(), nullable=False),
        sa.Column("caption", sa.Text(), nullable=False),
        sa.Column("alt", sa.Text(), nullable=False),
        sa.Column("cover", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_photo_episode_id_episode")
        ),
        sa.ForeignKeyConstraint(
            ["step_id"], ["step.id"], name=op.f("fk_photo_step_id_step")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_photo")),
        sa.UniqueConstraint("episode_id", "sha256", name=op.f("uq_photo_episode_id")),
    )
    with op.batch_alter_table("photo", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_photo_episode_id"), ["episode_id"], unique=False
        )

    op.create_table(
        "set_up",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("design_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("machine", sa.String(length=80), nullable=False),
        sa.Column("cuts", sa.Text(), nullable=False),
        sa.Column("tilt_microdegrees", sa.BigInteger(), nullable=True),
        sa.Column("gauge_microdegrees", sa.BigInteger(), nullable=True),
        sa.Column("fence_nm", sa.BigInteger(), nullable=True),
        sa.Column("stop_nm", sa.BigInteger(), nullable=True),
        sa.Column("face_down", sa.String(length=200), nullable=False),
        sa.Column("check", sa.Text(), nullable=False),
        sa.Column("cautions", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["design_id"], ["design.id"], name=op.f("fk_set_up_design_id_design")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_set_up")),
        sa.UniqueConstraint("design_id", "key", name=op.f("uq_set_up_design_id")),
    )
    op.create_table(
        "stock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("label", sa.String(length=20), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("species", sa.String(length=200), nullable=False),
        sa.Column("length_nm", sa.BigInteger(), nullable=False),
        sa.Column("width_nm", sa.BigInteger(), nullable=False),
        sa.Column("thickness_nm", sa.BigInteger(), nullable=False),
        sa.Column("strips", sa.JSON(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("part_key", sa.String(length=80), nullable=False),
        sa.Column("place", sa.String(length=200), nullable=False),
        sa.Column("episode_id", sa.Integer(), nullable=True),
        sa.Column("made_by", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["episode_id"], ["episode.id"], name=op.f("fk_stock_episode_id_episode")
        ),
        sa.ForeignKeyConstraint(
            ["made_by"], ["movement.id"], name=op.f("fk_stock_made_by_movement")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stock")),
        sa.UniqueConstraint("label", name=op.f("uq_stock_label")),
    )
    op.create_table(
        "movement_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("movement_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("side", sa.String(length=8), nullable=False),
        sa.Column("stock_id", sa.Integer(), nullable=True),
        sa.Column("part_key", sa.String(length=80), nullable=False),
        sa.Column("part_name", sa.String(length=200), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("volume", sa.String(length=80), nullable=False),
        sa.Column("cost", sa.BigInteger(), nullable=False),
        sa.CheckConstraint(
            "quantity >= 1", name=op.f("ck_movement_line_moves_something")
        ),
        sa.ForeignKeyConstraint(
            ["movement_id"],
            ["movement.id"],
            name=op.f("fk_movement_line_movement_id_movement"),
        ),
        sa.ForeignKeyConstraint(
            ["stock_id"], ["stock.id"], name=op.f("fk_movement_line_stock_id_stock")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_movement_line")),
    )
    with op.batch_alter_table("movement_line", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_movement_line_movement_id"), ["movement_id"], unique=False
        )
        batch_op.create_index(
            batch_op.f("ix_movement_line_stock_id"), ["stock_id"], unique=False
        )

    # ### end Alembic commands ###
