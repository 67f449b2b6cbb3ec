BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0002');
CREATE TABLE captions (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	sha256 VARCHAR(64) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	cues INTEGER NOT NULL, 
	added_at DATETIME NOT NULL, 
	CONSTRAINT pk_captions PRIMARY KEY (id), 
	CONSTRAINT fk_captions_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_captions_episode_id UNIQUE (episode_id)
);
CREATE TABLE chapter (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	start_ms BIGINT NOT NULL, 
	title VARCHAR(200) NOT NULL, 
	CONSTRAINT pk_chapter PRIMARY KEY (id), 
	CONSTRAINT fk_chapter_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_chapter_episode_id UNIQUE (episode_id, start_ms)
);
CREATE TABLE design (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	form VARCHAR(80) NOT NULL, 
	inputs JSON NOT NULL, 
	shop JSON NOT NULL, 
	CONSTRAINT pk_design PRIMARY KEY (id), 
	CONSTRAINT fk_design_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_design_episode_id UNIQUE (episode_id)
);
CREATE TABLE edited_block (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	"key" VARCHAR(40) NOT NULL, 
	text TEXT NOT NULL, 
	facts VARCHAR(64) NOT NULL, 
	CONSTRAINT pk_edited_block PRIMARY KEY (id), 
	CONSTRAINT fk_edited_block_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_edited_block_episode_id UNIQUE (episode_id, "key")
);
CREATE TABLE episode (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	series_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	slug VARCHAR(80) NOT NULL, 
	title VARCHAR(200) NOT NULL, 
	opening TEXT NOT NULL, 
	introduces TEXT NOT NULL, 
	due_on DATE, 
	video_url VARCHAR(500) NOT NULL, 
	length_ms BIGINT, 
	CONSTRAINT pk_episode PRIMARY KEY (id), 
	CONSTRAINT ck_episode_number_from_one CHECK (number >= 1), 
	CONSTRAINT fk_episode_series_id_series FOREIGN KEY(series_id) REFERENCES series (id), 
	CONSTRAINT uq_episode_series_id UNIQUE (series_id, number)
);
INSERT INTO "episode" VALUES(1,1,1,1,'tray','Tray','','',NULL,'',NULL);
CREATE TABLE glue_up (
	id INTEGER NOT NULL, 
	design_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	"key" VARCHAR(80) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	quantity INTEGER NOT NULL, 
	strips JSON NOT NULL, 
	length_nm BIGINT NOT NULL, 
	width_nm BIGINT NOT NULL, 
	thickness_nm BIGINT NOT NULL, 
	CONSTRAINT pk_glue_up PRIMARY KEY (id), 
	CONSTRAINT fk_glue_up_design_id_design FOREIGN KEY(design_id) REFERENCES design (id), 
	CONSTRAINT uq_glue_up_design_id UNIQUE (design_id, "key")
);
CREATE TABLE movement (
	id INTEGER NOT NULL, 
	kind VARCHAR(20) NOT NULL, 
	"on" DATE NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	zone VARCHAR(64) NOT NULL, 
	episode_id INTEGER, 
	plan_id INTEGER, 
	reverses_id INTEGER, 
	from_outside VARCHAR(80) NOT NULL, 
	to_outside VARCHAR(80) NOT NULL, 
	kerf VARCHAR(80) NOT NULL, 
	chips VARCHAR(80) NOT NULL, 
	scrap VARCHAR(80) NOT NULL, 
	paid BIGINT NOT NULL, 
	written_off BIGINT NOT NULL, 
	currency VARCHAR(3) NOT NULL, 
	supplier VARCHAR(200) NOT NULL, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_movement PRIMARY KEY (id), 
	CONSTRAINT fk_movement_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT fk_movement_plan_id_plan FOREIGN KEY(plan_id) REFERENCES "plan" (id), 
	CONSTRAINT fk_movement_reverses_id_movement FOREIGN KEY(reverses_id) REFERENCES movement (id), 
	CONSTRAINT uq_movement_reverses_id UNIQUE (reverses_id)
);
INSERT INTO "movement" VALUES(1,'bought','2026-03-01','2026-03-02 12:00:00.000000','UTC',NULL,NULL,NULL,'18877897728000000000000000','0','0','0','0',4200,0,'USD','','');
CREATE TABLE movement_line (
	id INTEGER NOT NULL, 
	movement_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	side VARCHAR(8) NOT NULL, 
	stock_id INTEGER, 
	part_key VARCHAR(80) NOT NULL, 
	part_name VARCHAR(200) NOT NULL, 
	quantity INTEGER NOT NULL, 
	volume VARCHAR(80) NOT NULL, 
	cost BIGINT NOT NULL, 
	CONSTRAINT pk_movement_line PRIMARY KEY (id), 
	CONSTRAINT ck_movement_line_moves_something CHECK (quantity >= 1), 
	CONSTRAINT fk_movement_line_movement_id_movement FOREIGN KEY(movement_id) REFERENCES movement (id), 
	CONSTRAINT fk_movement_line_stock_id_stock FOREIGN KEY(stock_id) REFERENCES stock (id)
);
INSERT INTO "movement_line" VALUES(1,1,0,'made',1,'','',2,'18877897728000000000000000',4200);
CREATE TABLE note (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	step_id INTEGER, 
	noted_at DATETIME NOT NULL, 
	zone VARCHAR(64) NOT NULL, 
	text TEXT NOT NULL, 
	video_ms BIGINT, 
	CONSTRAINT pk_note PRIMARY KEY (id), 
	CONSTRAINT fk_note_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT fk_note_step_id_step FOREIGN KEY(step_id) REFERENCES step (id)
);
INSERT INTO "note" VALUES(1,1,1,NULL,'2026-03-02 12:00:00.000000','UTC','Tight — no gap.',NULL);
CREATE TABLE part (
	id INTEGER NOT NULL, 
	design_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	"key" VARCHAR(80) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	quantity INTEGER NOT NULL, 
	species VARCHAR(200) NOT NULL, 
	grain VARCHAR(8) NOT NULL, 
	glue_up VARCHAR(80) NOT NULL, 
	length_nm BIGINT NOT NULL, 
	width_nm BIGINT NOT NULL, 
	thickness_nm BIGINT NOT NULL, 
	blank_length_nm BIGINT NOT NULL, 
	blank_width_nm BIGINT NOT NULL, 
	blank_thickness_nm BIGINT NOT NULL, 
	volume VARCHAR(80) NOT NULL, 
	outline JSON NOT NULL, 
	CONSTRAINT pk_part PRIMARY KEY (id), 
	CONSTRAINT fk_part_design_id_design FOREIGN KEY(design_id) REFERENCES design (id), 
	CONSTRAINT uq_part_design_id UNIQUE (design_id, "key")
);
CREATE TABLE photo (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	step_id INTEGER, 
	position INTEGER NOT NULL, 
	sha256 VARCHAR(64) NOT NULL, 
	web_sha256 VARCHAR(64) NOT NULL, 
	thumb_sha256 VARCHAR(64) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	format VARCHAR(8) NOT NULL, 
	width INTEGER NOT NULL, 
	height INTEGER NOT NULL, 
	taken_at VARCHAR(32) NOT NULL, 
	taken_offset INTEGER, 
	added_at DATETIME NOT NULL, 
	caption TEXT NOT NULL, 
	alt TEXT NOT NULL, 
	cover BOOLEAN NOT NULL, 
	CONSTRAINT pk_photo PRIMARY KEY (id), 
	CONSTRAINT fk_photo_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT fk_photo_step_id_step FOREIGN KEY(step_id) REFERENCES step (id), 
	CONSTRAINT uq_photo_episode_id UNIQUE (episode_id, sha256)
);
CREATE TABLE "plan" (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	made_at DATETIME NOT NULL, 
	job JSON NOT NULL, 
	answer JSON NOT NULL, 
	cut_on DATE, 
	CONSTRAINT pk_plan PRIMARY KEY (id), 
	CONSTRAINT fk_plan_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id)
);
CREATE TABLE promise (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	text TEXT NOT NULL, 
	video_ms BIGINT, 
	due_on DATE, 
	kept_in INTEGER, 
	kept_how TEXT NOT NULL, 
	CONSTRAINT pk_promise PRIMARY KEY (id), 
	CONSTRAINT fk_promise_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT fk_promise_kept_in_episode FOREIGN KEY(kept_in) REFERENCES episode (id)
);
CREATE TABLE publication (
	id INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	revision INTEGER NOT NULL, 
	frozen_at DATETIME NOT NULL, 
	zone VARCHAR(64) NOT NULL, 
	sheet JSON NOT NULL, 
	CONSTRAINT pk_publication PRIMARY KEY (id), 
	CONSTRAINT fk_publication_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_publication_episode_id UNIQUE (episode_id, revision)
);
CREATE TABLE series (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	slug VARCHAR(80) NOT NULL, 
	title VARCHAR(200) NOT NULL, 
	summary TEXT NOT NULL, 
	disclosure TEXT NOT NULL, 
	CONSTRAINT pk_series PRIMARY KEY (id), 
	CONSTRAINT uq_series_slug UNIQUE (slug)
);
INSERT INTO "series" VALUES(1,1,'porch-pieces','Porch pieces','','');
CREATE TABLE series_plan (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	series_id INTEGER NOT NULL, 
	made_at DATETIME NOT NULL, 
	job JSON NOT NULL, 
	answer JSON NOT NULL, 
	apart JSON NOT NULL, 
	CONSTRAINT pk_series_plan PRIMARY KEY (id), 
	CONSTRAINT fk_series_plan_series_id_series FOREIGN KEY(series_id) REFERENCES series (id), 
	CONSTRAINT uq_series_plan_series_id UNIQUE (series_id)
);
CREATE TABLE set_up (
	id INTEGER NOT NULL, 
	design_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	"key" VARCHAR(80) NOT NULL, 
	machine VARCHAR(80) NOT NULL, 
	cuts TEXT NOT NULL, 
	tilt_microdegrees BIGINT, 
	gauge_microdegrees BIGINT, 
	fence_nm BIGINT, 
	stop_nm BIGINT, 
	face_down VARCHAR(200) NOT NULL, 
	"check" TEXT NOT NULL, 
	cautions JSON NOT NULL, 
	CONSTRAINT pk_set_up PRIMARY KEY (id), 
	CONSTRAINT fk_set_up_design_id_design FOREIGN KEY(design_id) REFERENCES design (id), 
	CONSTRAINT uq_set_up_design_id UNIQUE (design_id, "key")
);
CREATE TABLE settings (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	unit VARCHAR(2) NOT NULL, 
	denominator INTEGER NOT NULL, 
	decimal BOOLEAN NOT NULL, 
	both_systems BOOLEAN NOT NULL, 
	currency VARCHAR(3) NOT NULL, 
	zone VARCHAR(64) NOT NULL, 
	shop JSON NOT NULL, 
	disclosure TEXT NOT NULL, 
	CONSTRAINT pk_settings PRIMARY KEY (id)
);
CREATE TABLE step (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	"key" VARCHAR(80) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	detail TEXT NOT NULL, 
	tool VARCHAR(80) NOT NULL, 
	set_up VARCHAR(80) NOT NULL, 
	bench_minutes INTEGER NOT NULL, 
	waits JSON NOT NULL, 
	cautions JSON NOT NULL, 
	supplies JSON NOT NULL, 
	from_form BOOLEAN NOT NULL, 
	done_at DATETIME, 
	CONSTRAINT pk_step PRIMARY KEY (id), 
	CONSTRAINT fk_step_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT uq_step_episode_id UNIQUE (episode_id, "key")
);
CREATE TABLE stock (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	label VARCHAR(20) NOT NULL, 
	kind VARCHAR(20) NOT NULL, 
	species VARCHAR(200) NOT NULL, 
	length_nm BIGINT NOT NULL, 
	width_nm BIGINT NOT NULL, 
	thickness_nm BIGINT NOT NULL, 
	strips JSON NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	part_key VARCHAR(80) NOT NULL, 
	place VARCHAR(200) NOT NULL, 
	episode_id INTEGER, 
	made_by INTEGER NOT NULL, 
	CONSTRAINT pk_stock PRIMARY KEY (id), 
	CONSTRAINT fk_stock_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id), 
	CONSTRAINT fk_stock_made_by_movement FOREIGN KEY(made_by) REFERENCES movement (id), 
	CONSTRAINT uq_stock_label UNIQUE (label)
);
INSERT INTO "stock" VALUES(1,1,'W1','board','walnut',2438400000,152400000,25400000,'[]','','','wall',NULL,1);
CREATE TABLE used_item (
	id INTEGER NOT NULL, 
	version INTEGER NOT NULL, 
	episode_id INTEGER NOT NULL, 
	kind VARCHAR(8) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	quantity VARCHAR(80) NOT NULL, 
	url VARCHAR(500) NOT NULL, 
	given BOOLEAN NOT NULL, 
	cost BIGINT NOT NULL, 
	CONSTRAINT pk_used_item PRIMARY KEY (id), 
	CONSTRAINT fk_used_item_episode_id_episode FOREIGN KEY(episode_id) REFERENCES episode (id)
);
CREATE INDEX ix_plan_episode_id ON "plan" (episode_id);
CREATE INDEX ix_promise_episode_id ON promise (episode_id);
CREATE INDEX ix_used_item_episode_id ON used_item (episode_id);
CREATE INDEX ix_note_episode_id ON note (episode_id);
CREATE INDEX ix_photo_episode_id ON photo (episode_id);
CREATE INDEX ix_movement_line_movement_id ON movement_line (movement_id);
CREATE INDEX ix_movement_line_stock_id ON movement_line (stock_id);
COMMIT;
