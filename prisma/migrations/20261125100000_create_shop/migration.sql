
-- CreateEnum
CREATE TYPE "LengthUnit" AS ENUM ('in', 'mm');

-- CreateEnum
CREATE TYPE "Paper" AS ENUM ('letter', 'a4');

-- CreateEnum
CREATE TYPE "Role" AS ENUM ('owner', 'office', 'bench');

-- CreateEnum
CREATE TYPE "TubeShape" AS ENUM ('square', 'rectangular', 'round');

-- CreateEnum
CREATE TYPE "SupportKind" AS ENUM ('hollow', 'sand', 'lowMelt');

-- CreateEnum
CREATE TYPE "FillerMove" AS ENUM ('bought', 'poured', 'recovered', 'lost', 'counted');

-- CreateEnum
CREATE TYPE "AskStatus" AS ENUM ('sent', 'quoted', 'declined', 'silent');

-- CreateEnum
CREATE TYPE "QuoteStatus" AS ENUM ('draft', 'sent', 'accepted', 'declined', 'lapsed', 'withdrawn');

-- CreateEnum
CREATE TYPE "QuoteAnswer" AS ENUM ('accepted', 'declined');

-- CreateEnum
CREATE TYPE "JobStatus" AS ENUM ('open', 'closed', 'cancelled');

-- CreateEnum
CREATE TYPE "PieceStatus" AS ENUM ('open', 'released', 'scrapped');

-- CreateEnum
CREATE TYPE "BendLook" AS ENUM ('clean', 'marked', 'wrinkled', 'flattened', 'cracked');

-- CreateEnum
CREATE TYPE "PenetrantResult" AS ENUM ('notDone', 'clear', 'indication');

-- CreateEnum
CREATE TYPE "BendVerdict" AS ENUM ('pass', 'fail', 'cannotSay', 'waiting');

-- CreateEnum
CREATE TYPE "Disposition" AS ENUM ('rework', 'repair', 'scrap', 'regrade', 'concession');

-- CreateEnum
CREATE TYPE "LessonKind" AS ENUM ('springbackFactor', 'firstTry', 'operationMinutes');

-- CreateTable
CREATE TABLE "Shop" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "addressText" TEXT NOT NULL DEFAULT '',
    "contactText" TEXT NOT NULL DEFAULT '',
    "currency" TEXT NOT NULL DEFAULT 'USD',
    "lengthUnit" "LengthUnit" NOT NULL DEFAULT 'in',
    "paper" "Paper" NOT NULL DEFAULT 'letter',
    "timeZone" TEXT NOT NULL DEFAULT 'America/New_York',
    "taxName" TEXT NOT NULL DEFAULT 'Sales tax',
    "taxPpm" INTEGER NOT NULL DEFAULT 0,
    "quoteValidDays" INTEGER NOT NULL DEFAULT 30,
    "quoteTermsText" TEXT NOT NULL DEFAULT '',
    "pressUseFraction" DOUBLE PRECISION NOT NULL DEFAULT 0.8,
    "gripMm" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "trimMm" DOUBLE PRECISION NOT NULL DEFAULT 3,
    "kerfMm" DOUBLE PRECISION NOT NULL DEFAULT 2,
    "demoMark" JSONB,
    "version" INTEGER NOT NULL DEFAULT 0,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Shop_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RateSheet" (
    "id" SERIAL NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "createdById" INTEGER,
    "reasonText" TEXT NOT NULL DEFAULT '',
    "rates" JSONB NOT NULL,

    CONSTRAINT "RateSheet_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "User" (
    "id" SERIAL NOT NULL,
    "login" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" "Role" NOT NULL,
    "passwordHash" TEXT,
    "pinHash" TEXT,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "User_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Session" (
    "tokenHash" TEXT NOT NULL,
    "userId" INTEGER NOT NULL,
    "deviceId" INTEGER,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "lastSeenAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "addressText" TEXT NOT NULL DEFAULT '',
    "agentText" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Session_pkey" PRIMARY KEY ("tokenHash")
);

-- CreateTable
CREATE TABLE "Device" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "admittedById" INTEGER NOT NULL,
    "admittedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revokedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Device_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "OneTimeLink" (
    "tokenHash" TEXT NOT NULL,
    "userId" INTEGER NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "usedAt" TIMESTAMPTZ(3),

    CONSTRAINT "OneTimeLink_pkey" PRIMARY KEY ("tokenHash")
);

-- CreateTable
CREATE TABLE "SignInAttempt" (
    "id" BIGSERIAL NOT NULL,
    "login" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "SignInAttempt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "actorId" INTEGER,
    "actorText" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "entity" TEXT NOT NULL,
    "entityId" TEXT NOT NULL,
    "detailText" TEXT NOT NULL DEFAULT '',
    "before" JSONB,
    "after" JSONB,

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "NumberSeries" (
    "name" TEXT NOT NULL,
    "next" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "NumberSeries_pkey" PRIMARY KEY ("name")
);

-- CreateTable
CREATE TABLE "StoredFile" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "mediaType" TEXT NOT NULL,
    "byteCount" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "content" BYTEA NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "createdById" INTEGER,
    "partId" INTEGER,
    "bendRecordId" INTEGER,

    CONSTRAINT "StoredFile_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Customer" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "addressText" TEXT NOT NULL DEFAULT '',
    "notesText" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "archivedAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Customer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Contact" (
    "id" SERIAL NOT NULL,
    "customerId" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "roleText" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Contact_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Part" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "customerId" INTEGER NOT NULL,
    "customerRef" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "archivedAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Part_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PartRevision" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "letter" TEXT NOT NULL,
    "shape" "TubeShape" NOT NULL,
    "widthMm" DOUBLE PRECISION NOT NULL,
    "heightMm" DOUBLE PRECISION NOT NULL,
    "wallMm" DOUBLE PRECISION NOT NULL,
    "cornerRadiusMm" DOUBLE PRECISION,
    "materialId" TEXT NOT NULL,
    "straightAfterMm" DOUBLE PRECISION NOT NULL,
    "startCut" JSONB NOT NULL,
    "endCut" JSONB NOT NULL,
    "angleToleranceDeg" DOUBLE PRECISION NOT NULL DEFAULT 1,
    "lengthToleranceMm" DOUBLE PRECISION NOT NULL DEFAULT 2,
    "radiusToleranceMm" DOUBLE PRECISION,
    "sectionToleranceFraction" DOUBLE PRECISION,
    "generalTolerance" TEXT NOT NULL DEFAULT 'ISO 2768-m',
    "weldedAfter" BOOLEAN NOT NULL DEFAULT false,
    "couldHurt" BOOLEAN NOT NULL DEFAULT false,
    "notesText" TEXT NOT NULL DEFAULT '',
    "typicalQuantity" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "frozenAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "PartRevision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Bend" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "straightBeforeMm" DOUBLE PRECISION NOT NULL,
    "angleDeg" DOUBLE PRECISION NOT NULL,
    "centrelineRadiusMm" DOUBLE PRECISION NOT NULL,
    "rotationDeg" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "Bend_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Setup" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "support" "SupportKind" NOT NULL,
    "pressId" INTEGER NOT NULL,
    "supportSpanMm" DOUBLE PRECISION NOT NULL,
    "dieId" INTEGER,
    "strapId" INTEGER,
    "fillerId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Setup_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Press" (
    "id" SERIAL NOT NULL,
    "shopNumber" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "capacityKn" DOUBLE PRECISION NOT NULL,
    "strokeMm" DOUBLE PRECISION,
    "supportNoseRadiusMm" DOUBLE PRECISION NOT NULL,
    "supportFrictionCoeff" DOUBLE PRECISION,
    "minimumSpanMm" DOUBLE PRECISION NOT NULL,
    "maximumSpanMm" DOUBLE PRECISION NOT NULL,
    "notesText" TEXT NOT NULL DEFAULT '',
    "retiredAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Press_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Die" (
    "id" SERIAL NOT NULL,
    "shopNumber" TEXT NOT NULL,
    "surfaceRadiusMm" DOUBLE PRECISION NOT NULL,
    "grooveWidthMm" DOUBLE PRECISION,
    "arcDeg" DOUBLE PRECISION,
    "place" TEXT NOT NULL DEFAULT '',
    "notesText" TEXT NOT NULL DEFAULT '',
    "retiredAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Die_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Strap" (
    "id" SERIAL NOT NULL,
    "shopNumber" TEXT NOT NULL,
    "thicknessMm" DOUBLE PRECISION NOT NULL,
    "widthMm" DOUBLE PRECISION NOT NULL,
    "lengthMm" DOUBLE PRECISION NOT NULL,
    "yieldMPa" DOUBLE PRECISION NOT NULL,
    "frictionCoeff" DOUBLE PRECISION,
    "place" TEXT NOT NULL DEFAULT '',
    "notesText" TEXT NOT NULL DEFAULT '',
    "retiredAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Strap_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Filler" (
    "id" SERIAL NOT NULL,
    "shopNumber" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "fillerId" TEXT NOT NULL,
    "lotText" TEXT NOT NULL DEFAULT '',
    "densityKgM3" DOUBLE PRECISION,
    "yieldMPa" DOUBLE PRECISION,
    "modulusMPa" DOUBLE PRECISION,
    "priceCentsPerKg" INTEGER NOT NULL DEFAULT 0,
    "notesText" TEXT NOT NULL DEFAULT '',
    "retiredAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Filler_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FillerEntry" (
    "id" SERIAL NOT NULL,
    "fillerId" INTEGER NOT NULL,
    "kind" "FillerMove" NOT NULL,
    "massKg" DOUBLE PRECISION NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "byId" INTEGER,
    "jobId" INTEGER,
    "noteText" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "FillerEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "MaterialEntry" (
    "id" TEXT NOT NULL,
    "data" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "MaterialEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StockLot" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "materialId" TEXT NOT NULL,
    "shape" "TubeShape" NOT NULL,
    "widthMm" DOUBLE PRECISION NOT NULL,
    "heightMm" DOUBLE PRECISION NOT NULL,
    "wallMm" DOUBLE PRECISION NOT NULL,
    "cornerRadiusMm" DOUBLE PRECISION,
    "heatNumber" TEXT NOT NULL DEFAULT '',
    "supplierText" TEXT NOT NULL DEFAULT '',
    "receivedOn" DATE NOT NULL,
    "priceCentsPerM" INTEGER NOT NULL,
    "place" TEXT NOT NULL DEFAULT '',
    "certificateYieldMPa" DOUBLE PRECISION,
    "certificateTensileMPa" DOUBLE PRECISION,
    "certificateElongationPct" DOUBLE PRECISION,
    "certificateFileId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "StockLot_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StockPiece" (
    "id" SERIAL NOT NULL,
    "lotId" INTEGER NOT NULL,
    "lengthMm" DOUBLE PRECISION NOT NULL,
    "isOffcut" BOOLEAN NOT NULL DEFAULT false,
    "place" TEXT NOT NULL DEFAULT '',
    "cutFromId" INTEGER,
    "reservedForJobId" INTEGER,
    "usedAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "StockPiece_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Source" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "contactText" TEXT NOT NULL DEFAULT '',
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "canBendText" TEXT NOT NULL DEFAULT '',
    "minimumRadiusRatio" DOUBLE PRECISION,
    "maximumSizeMm" DOUBLE PRECISION,
    "alloysText" TEXT NOT NULL DEFAULT '',
    "notesText" TEXT NOT NULL DEFAULT '',
    "archivedAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Source_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Ask" (
    "id" SERIAL NOT NULL,
    "sourceId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "status" "AskStatus" NOT NULL DEFAULT 'sent',
    "quantities" INTEGER[],
    "sentOn" DATE NOT NULL,
    "chaseOn" DATE NOT NULL,
    "chasedCount" INTEGER NOT NULL DEFAULT 0,
    "repliedOn" DATE,
    "declineReason" TEXT NOT NULL DEFAULT '',
    "toolingCents" INTEGER NOT NULL DEFAULT 0,
    "setUpCents" INTEGER NOT NULL DEFAULT 0,
    "minimumOrderCents" INTEGER NOT NULL DEFAULT 0,
    "freightCents" INTEGER NOT NULL DEFAULT 0,
    "leadTimeDays" INTEGER,
    "validUntil" DATE,
    "offeredRadiusMm" DOUBLE PRECISION,
    "conditionsText" TEXT NOT NULL DEFAULT '',
    "expectedRejectFraction" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "notesText" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Ask_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "AskPrice" (
    "id" SERIAL NOT NULL,
    "askId" INTEGER NOT NULL,
    "quantity" INTEGER NOT NULL,
    "unitCents" INTEGER NOT NULL,

    CONSTRAINT "AskPrice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Estimate" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "way" TEXT NOT NULL,
    "quantities" INTEGER[],
    "rateSheetId" INTEGER NOT NULL,
    "overrides" JSONB NOT NULL,
    "inputs" JSONB NOT NULL,
    "results" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "createdById" INTEGER,

    CONSTRAINT "Estimate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Decision" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "quantity" INTEGER NOT NULL,
    "way" TEXT NOT NULL,
    "askId" INTEGER,
    "whyText" TEXT NOT NULL,
    "comparison" JSONB NOT NULL,
    "inputsHash" TEXT NOT NULL,
    "decidedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "decidedById" INTEGER,

    CONSTRAINT "Decision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Quote" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "customerId" INTEGER NOT NULL,
    "status" "QuoteStatus" NOT NULL DEFAULT 'draft',
    "currency" TEXT NOT NULL,
    "taxName" TEXT NOT NULL,
    "taxPpm" INTEGER NOT NULL,
    "termsText" TEXT NOT NULL DEFAULT '',
    "noteText" TEXT NOT NULL DEFAULT '',
    "validUntil" DATE NOT NULL,
    "followUpOn" DATE,
    "issue" INTEGER NOT NULL DEFAULT 0,
    "lostReason" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Quote_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "QuoteLine" (
    "id" SERIAL NOT NULL,
    "quoteId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "estimateId" INTEGER,
    "description" TEXT NOT NULL,
    "leadTimeDays" INTEGER NOT NULL,
    "acceptedQuantity" INTEGER,

    CONSTRAINT "QuoteLine_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "QuoteBreak" (
    "id" SERIAL NOT NULL,
    "lineId" INTEGER NOT NULL,
    "quantity" INTEGER NOT NULL,
    "unitCents" INTEGER NOT NULL,
    "costCents" INTEGER,

    CONSTRAINT "QuoteBreak_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "QuoteIssue" (
    "id" SERIAL NOT NULL,
    "quoteId" INTEGER NOT NULL,
    "issue" INTEGER NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "snapshot" JSONB NOT NULL,
    "sentAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "withdrawnAt" TIMESTAMPTZ(3),
    "firstReadAt" TIMESTAMPTZ(3),
    "answeredAt" TIMESTAMPTZ(3),
    "answer" "QuoteAnswer",
    "answeredBy" TEXT NOT NULL DEFAULT '',
    "answerNote" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "QuoteIssue_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Job" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "customerId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "quoteLineId" INTEGER,
    "quantity" INTEGER NOT NULL,
    "dueOn" DATE NOT NULL,
    "status" "JobStatus" NOT NULL DEFAULT 'open',
    "way" TEXT NOT NULL,
    "priceCents" INTEGER,
    "plan" JSONB NOT NULL,
    "travellerIssue" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closedAt" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Piece" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "scanCode" TEXT NOT NULL,
    "status" "PieceStatus" NOT NULL DEFAULT 'open',
    "stockPieceId" INTEGER,
    "replacesId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Piece_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "JobOperation" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "workCentre" TEXT NOT NULL,
    "instruction" TEXT NOT NULL DEFAULT '',
    "setPoints" JSONB NOT NULL,
    "plannedSetUpMinutes" DOUBLE PRECISION NOT NULL,
    "plannedRunMinutesPerPiece" DOUBLE PRECISION NOT NULL,
    "doneAt" TIMESTAMPTZ(3),

    CONSTRAINT "JobOperation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "OperationLog" (
    "id" SERIAL NOT NULL,
    "operationId" INTEGER NOT NULL,
    "pieceId" INTEGER,
    "byId" INTEGER NOT NULL,
    "startedAt" TIMESTAMPTZ(3) NOT NULL,
    "endedAt" TIMESTAMPTZ(3),
    "clientKey" TEXT NOT NULL,

    CONSTRAINT "OperationLog_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BendRecord" (
    "id" SERIAL NOT NULL,
    "pieceId" INTEGER NOT NULL,
    "bendPosition" INTEGER NOT NULL,
    "tryNumber" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "byId" INTEGER NOT NULL,
    "targetAtPressDeg" DOUBLE PRECISION,
    "loadedAngleDeg" DOUBLE PRECISION,
    "angleAtPressDeg" DOUBLE PRECISION,
    "angleFinalDeg" DOUBLE PRECISION,
    "radiusMm" DOUBLE PRECISION,
    "widthOutsideMm" DOUBLE PRECISION,
    "widthMiddleMm" DOUBLE PRECISION,
    "widthInsideMm" DOUBLE PRECISION,
    "heightMm" DOUBLE PRECISION,
    "wallOutsideMm" DOUBLE PRECISION,
    "wallInsideMm" DOUBLE PRECISION,
    "look" "BendLook",
    "dyePenetrant" "PenetrantResult" NOT NULL DEFAULT 'notDone',
    "gaugeText" TEXT NOT NULL DEFAULT '',
    "gaugeUncertaintyDeg" DOUBLE PRECISION NOT NULL,
    "verdict" "BendVerdict" NOT NULL,
    "reasons" JSONB NOT NULL,
    "setup" JSONB NOT NULL,
    "noteText" TEXT NOT NULL DEFAULT '',
    "clientKey" TEXT NOT NULL,

    CONSTRAINT "BendRecord_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Nonconformance" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "jobId" INTEGER NOT NULL,
    "pieceId" INTEGER,
    "bendRecordId" INTEGER,
    "description" TEXT NOT NULL,
    "openedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "openedById" INTEGER NOT NULL,
    "disposition" "Disposition",
    "whyText" TEXT NOT NULL DEFAULT '',
    "decidedAt" TIMESTAMPTZ(3),
    "decidedById" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Nonconformance_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Release" (
    "id" SERIAL NOT NULL,
    "number" TEXT NOT NULL,
    "jobId" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "byId" INTEGER NOT NULL,
    "statementText" TEXT NOT NULL,
    "snapshot" JSONB NOT NULL,

    CONSTRAINT "Release_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ReleasePiece" (
    "releaseId" INTEGER NOT NULL,
    "pieceId" INTEGER NOT NULL,

    CONSTRAINT "ReleasePiece_pkey" PRIMARY KEY ("releaseId","pieceId")
);

-- CreateTable
CREATE TABLE "Lesson" (
    "id" SERIAL NOT NULL,
    "kind" "LessonKind" NOT NULL,
    "materialId" TEXT NOT NULL,
    "sectionText" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "jobId" INTEGER,
    "bendRecordId" INTEGER,
    "operationKey" TEXT NOT NULL DEFAULT '',
    "value" DOUBLE PRECISION NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "acceptedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Lesson_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "RateSheet_createdById_idx" ON "RateSheet"("createdById");

-- CreateIndex
CREATE UNIQUE INDEX "User_login_key" ON "User"("login");

-- CreateIndex
CREATE INDEX "Session_userId_idx" ON "Session"("userId");

-- CreateIndex
CREATE INDEX "Session_deviceId_idx" ON "Session"("deviceId");

-- CreateIndex
CREATE INDEX "Session_expiresAt_idx" ON "Session"("expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "Device_tokenHash_key" ON "Device"("tokenHash");

-- CreateIndex
CREATE INDEX "Device_admittedById_idx" ON "Device"("admittedById");

-- CreateIndex
CREATE INDEX "OneTimeLink_userId_idx" ON "OneTimeLink"("userId");

-- CreateIndex
CREATE INDEX "SignInAttempt_login_at_idx" ON "SignInAttempt"("login", "at");

-- CreateIndex
CREATE INDEX "SignInAttempt_address_at_idx" ON "SignInAttempt"("address", "at");

-- CreateIndex
CREATE INDEX "AuditEntry_entity_entityId_at_idx" ON "AuditEntry"("entity", "entityId", "at");

-- CreateIndex
CREATE INDEX "AuditEntry_actorId_idx" ON "AuditEntry"("actorId");

-- CreateIndex
CREATE INDEX "AuditEntry_at_idx" ON "AuditEntry"("at");

-- CreateIndex
CREATE INDEX "StoredFile_partId_idx" ON "StoredFile"("partId");

-- CreateIndex
CREATE INDEX "StoredFile_bendRecordId_idx" ON "StoredFile"("bendRecordId");

-- CreateIndex
CREATE INDEX "StoredFile_createdById_idx" ON "StoredFile"("createdById");

-- CreateIndex
CREATE INDEX "StoredFile_sha256_idx" ON "StoredFile"("sha256");

-- CreateIndex
CREATE INDEX "Customer_name_idx" ON "Customer"("name");

-- CreateIndex
CREATE INDEX "Contact_customerId_idx" ON "Contact"("customerId");

-- CreateIndex
CREATE UNIQUE INDEX "Part_number_key" ON "Part"("number");

-- CreateIndex
CREATE INDEX "Part_customerId_idx" ON "Part"("customerId");

-- CreateIndex
CREATE INDEX "Part_createdAt_idx" ON "Part"("createdAt");

-- CreateIndex
CREATE UNIQUE INDEX "PartRevision_partId_letter_key" ON "PartRevision"("partId", "letter");

-- CreateIndex
CREATE UNIQUE INDEX "Bend_revisionId_position_key" ON "Bend"("revisionId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "Setup_revisionId_key" ON "Setup"("revisionId");

-- CreateIndex
CREATE INDEX "Setup_pressId_idx" ON "Setup"("pressId");

-- CreateIndex
CREATE INDEX "Setup_dieId_idx" ON "Setup"("dieId");

-- CreateIndex
CREATE INDEX "Setup_strapId_idx" ON "Setup"("strapId");

-- CreateIndex
CREATE INDEX "Setup_fillerId_idx" ON "Setup"("fillerId");

-- CreateIndex
CREATE UNIQUE INDEX "Press_shopNumber_key" ON "Press"("shopNumber");

-- CreateIndex
CREATE UNIQUE INDEX "Die_shopNumber_key" ON "Die"("shopNumber");

-- CreateIndex
CREATE UNIQUE INDEX "Strap_shopNumber_key" ON "Strap"("shopNumber");

-- CreateIndex
CREATE UNIQUE INDEX "Filler_shopNumber_key" ON "Filler"("shopNumber");

-- CreateIndex
CREATE INDEX "FillerEntry_fillerId_at_idx" ON "FillerEntry"("fillerId", "at");

-- CreateIndex
CREATE INDEX "FillerEntry_jobId_idx" ON "FillerEntry"("jobId");

-- CreateIndex
CREATE INDEX "FillerEntry_byId_idx" ON "FillerEntry"("byId");

-- CreateIndex
CREATE UNIQUE INDEX "StockLot_number_key" ON "StockLot"("number");

-- CreateIndex
CREATE INDEX "StockLot_materialId_shape_widthMm_heightMm_wallMm_idx" ON "StockLot"("materialId", "shape", "widthMm", "heightMm", "wallMm");

-- CreateIndex
CREATE INDEX "StockLot_heatNumber_idx" ON "StockLot"("heatNumber");

-- CreateIndex
CREATE INDEX "StockLot_certificateFileId_idx" ON "StockLot"("certificateFileId");

-- CreateIndex
CREATE INDEX "StockPiece_lotId_idx" ON "StockPiece"("lotId");

-- CreateIndex
CREATE INDEX "StockPiece_cutFromId_idx" ON "StockPiece"("cutFromId");

-- CreateIndex
CREATE INDEX "StockPiece_reservedForJobId_idx" ON "StockPiece"("reservedForJobId");

-- CreateIndex
CREATE INDEX "Ask_sourceId_idx" ON "Ask"("sourceId");

-- CreateIndex
CREATE INDEX "Ask_revisionId_idx" ON "Ask"("revisionId");

-- CreateIndex
CREATE INDEX "Ask_status_chaseOn_idx" ON "Ask"("status", "chaseOn");

-- CreateIndex
CREATE UNIQUE INDEX "AskPrice_askId_quantity_key" ON "AskPrice"("askId", "quantity");

-- CreateIndex
CREATE INDEX "Estimate_rateSheetId_idx" ON "Estimate"("rateSheetId");

-- CreateIndex
CREATE INDEX "Estimate_createdById_idx" ON "Estimate"("createdById");

-- CreateIndex
CREATE UNIQUE INDEX "Estimate_revisionId_number_key" ON "Estimate"("revisionId", "number");

-- CreateIndex
CREATE INDEX "Decision_revisionId_decidedAt_idx" ON "Decision"("revisionId", "decidedAt");

-- CreateIndex
CREATE INDEX "Decision_decidedById_idx" ON "Decision"("decidedById");

-- CreateIndex
CREATE UNIQUE INDEX "Quote_number_key" ON "Quote"("number");

-- CreateIndex
CREATE INDEX "Quote_customerId_idx" ON "Quote"("customerId");

-- CreateIndex
CREATE INDEX "Quote_status_validUntil_idx" ON "Quote"("status", "validUntil");

-- CreateIndex
CREATE INDEX "Quote_createdAt_idx" ON "Quote"("createdAt");

-- CreateIndex
CREATE INDEX "QuoteLine_revisionId_idx" ON "QuoteLine"("revisionId");

-- CreateIndex
CREATE INDEX "QuoteLine_estimateId_idx" ON "QuoteLine"("estimateId");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteLine_quoteId_position_key" ON "QuoteLine"("quoteId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteBreak_lineId_quantity_key" ON "QuoteBreak"("lineId", "quantity");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteIssue_tokenHash_key" ON "QuoteIssue"("tokenHash");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteIssue_quoteId_issue_key" ON "QuoteIssue"("quoteId", "issue");

-- CreateIndex
CREATE UNIQUE INDEX "Job_number_key" ON "Job"("number");

-- CreateIndex
CREATE UNIQUE INDEX "Job_quoteLineId_key" ON "Job"("quoteLineId");

-- CreateIndex
CREATE INDEX "Job_customerId_idx" ON "Job"("customerId");

-- CreateIndex
CREATE INDEX "Job_revisionId_idx" ON "Job"("revisionId");

-- CreateIndex
CREATE INDEX "Job_status_dueOn_idx" ON "Job"("status", "dueOn");

-- CreateIndex
CREATE INDEX "Job_createdAt_idx" ON "Job"("createdAt");

-- CreateIndex
CREATE UNIQUE INDEX "Piece_scanCode_key" ON "Piece"("scanCode");

-- CreateIndex
CREATE INDEX "Piece_stockPieceId_idx" ON "Piece"("stockPieceId");

-- CreateIndex
CREATE INDEX "Piece_replacesId_idx" ON "Piece"("replacesId");

-- CreateIndex
CREATE UNIQUE INDEX "Piece_jobId_number_key" ON "Piece"("jobId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "JobOperation_jobId_position_key" ON "JobOperation"("jobId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "OperationLog_clientKey_key" ON "OperationLog"("clientKey");

-- CreateIndex
CREATE INDEX "OperationLog_operationId_idx" ON "OperationLog"("operationId");

-- CreateIndex
CREATE INDEX "OperationLog_pieceId_idx" ON "OperationLog"("pieceId");

-- CreateIndex
CREATE INDEX "OperationLog_byId_idx" ON "OperationLog"("byId");

-- CreateIndex
CREATE UNIQUE INDEX "BendRecord_clientKey_key" ON "BendRecord"("clientKey");

-- CreateIndex
CREATE INDEX "BendRecord_byId_idx" ON "BendRecord"("byId");

-- CreateIndex
CREATE INDEX "BendRecord_at_idx" ON "BendRecord"("at");

-- CreateIndex
CREATE UNIQUE INDEX "BendRecord_pieceId_bendPosition_tryNumber_key" ON "BendRecord"("pieceId", "bendPosition", "tryNumber");

-- CreateIndex
CREATE UNIQUE INDEX "Nonconformance_number_key" ON "Nonconformance"("number");

-- CreateIndex
CREATE INDEX "Nonconformance_jobId_idx" ON "Nonconformance"("jobId");

-- CreateIndex
CREATE INDEX "Nonconformance_pieceId_idx" ON "Nonconformance"("pieceId");

-- CreateIndex
CREATE INDEX "Nonconformance_bendRecordId_idx" ON "Nonconformance"("bendRecordId");

-- CreateIndex
CREATE INDEX "Nonconformance_openedById_idx" ON "Nonconformance"("openedById");

-- CreateIndex
CREATE INDEX "Nonconformance_decidedById_idx" ON "Nonconformance"("decidedById");

-- CreateIndex
CREATE UNIQUE INDEX "Release_number_key" ON "Release"("number");

-- CreateIndex
CREATE INDEX "Release_jobId_idx" ON "Release"("jobId");

-- CreateIndex
CREATE INDEX "Release_byId_idx" ON "Release"("byId");

-- CreateIndex
CREATE INDEX "ReleasePiece_pieceId_idx" ON "ReleasePiece"("pieceId");

-- CreateIndex
CREATE UNIQUE INDEX "Lesson_bendRecordId_key" ON "Lesson"("bendRecordId");

-- CreateIndex
CREATE INDEX "Lesson_kind_materialId_sectionText_method_idx" ON "Lesson"("kind", "materialId", "sectionText", "method");

-- AddForeignKey
ALTER TABLE "RateSheet" ADD CONSTRAINT "RateSheet_createdById_fkey" FOREIGN KEY ("createdById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Session" ADD CONSTRAINT "Session_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Session" ADD CONSTRAINT "Session_deviceId_fkey" FOREIGN KEY ("deviceId") REFERENCES "Device"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Device" ADD CONSTRAINT "Device_admittedById_fkey" FOREIGN KEY ("admittedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OneTimeLink" ADD CONSTRAINT "OneTimeLink_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "AuditEntry" ADD CONSTRAINT "AuditEntry_actorId_fkey" FOREIGN KEY ("actorId") REFERENCES "User"("id") ON DELETE NO ACTION ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StoredFile" ADD CONSTRAINT "StoredFile_createdById_fkey" FOREIGN KEY ("createdById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StoredFile" ADD CONSTRAINT "StoredFile_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StoredFile" ADD CONSTRAINT "StoredFile_bendRecordId_fkey" FOREIGN KEY ("bendRecordId") REFERENCES "BendRecord"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Contact" ADD CONSTRAINT "Contact_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Part" ADD CONSTRAINT "Part_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartRevision" ADD CONSTRAINT "PartRevision_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Bend" ADD CONSTRAINT "Bend_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Setup" ADD CONSTRAINT "Setup_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Setup" ADD CONSTRAINT "Setup_pressId_fkey" FOREIGN KEY ("pressId") REFERENCES "Press"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Setup" ADD CONSTRAINT "Setup_dieId_fkey" FOREIGN KEY ("dieId") REFERENCES "Die"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Setup" ADD CONSTRAINT "Setup_strapId_fkey" FOREIGN KEY ("strapId") REFERENCES "Strap"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Setup" ADD CONSTRAINT "Setup_fillerId_fkey" FOREIGN KEY ("fillerId") REFERENCES "Filler"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FillerEntry" ADD CONSTRAINT "FillerEntry_fillerId_fkey" FOREIGN KEY ("fillerId") REFERENCES "Filler"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FillerEntry" ADD CONSTRAINT "FillerEntry_byId_fkey" FOREIGN KEY ("byId") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FillerEntry" ADD CONSTRAINT "FillerEntry_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockLot" ADD CONSTRAINT "StockLot_certificateFileId_fkey" FOREIGN KEY ("certificateFileId") REFERENCES "StoredFile"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockPiece" ADD CONSTRAINT "StockPiece_lotId_fkey" FOREIGN KEY ("lotId") REFERENCES "StockLot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockPiece" ADD CONSTRAINT "StockPiece_cutFromId_fkey" FOREIGN KEY ("cutFromId") REFERENCES "StockPiece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockPiece" ADD CONSTRAINT "StockPiece_reservedForJobId_fkey" FOREIGN KEY ("reservedForJobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Ask" ADD CONSTRAINT "Ask_sourceId_fkey" FOREIGN KEY ("sourceId") REFERENCES "Source"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Ask" ADD CONSTRAINT "Ask_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "AskPrice" ADD CONSTRAINT "AskPrice_askId_fkey" FOREIGN KEY ("askId") REFERENCES "Ask"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Estimate" ADD CONSTRAINT "Estimate_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Estimate" ADD CONSTRAINT "Estimate_rateSheetId_fkey" FOREIGN KEY ("rateSheetId") REFERENCES "RateSheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Estimate" ADD CONSTRAINT "Estimate_createdById_fkey" FOREIGN KEY ("createdById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Decision" ADD CONSTRAINT "Decision_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Decision" ADD CONSTRAINT "Decision_decidedById_fkey" FOREIGN KEY ("decidedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Quote" ADD CONSTRAINT "Quote_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteLine" ADD CONSTRAINT "QuoteLine_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteLine" ADD CONSTRAINT "QuoteLine_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteLine" ADD CONSTRAINT "QuoteLine_estimateId_fkey" FOREIGN KEY ("estimateId") REFERENCES "Estimate"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteBreak" ADD CONSTRAINT "QuoteBreak_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "QuoteLine"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteIssue" ADD CONSTRAINT "QuoteIssue_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PartRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_quoteLineId_fkey" FOREIGN KEY ("quoteLineId") REFERENCES "QuoteLine"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_stockPieceId_fkey" FOREIGN KEY ("stockPieceId") REFERENCES "StockPiece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Piece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobOperation" ADD CONSTRAINT "JobOperation_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OperationLog" ADD CONSTRAINT "OperationLog_operationId_fkey" FOREIGN KEY ("operationId") REFERENCES "JobOperation"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OperationLog" ADD CONSTRAINT "OperationLog_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OperationLog" ADD CONSTRAINT "OperationLog_byId_fkey" FOREIGN KEY ("byId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BendRecord" ADD CONSTRAINT "BendRecord_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BendRecord" ADD CONSTRAINT "BendRecord_byId_fkey" FOREIGN KEY ("byId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Nonconformance" ADD CONSTRAINT "Nonconformance_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Nonconformance" ADD CONSTRAINT "Nonconformance_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Nonconformance" ADD CONSTRAINT "Nonconformance_bendRecordId_fkey" FOREIGN KEY ("bendRecordId") REFERENCES "BendRecord"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Nonconformance" ADD CONSTRAINT "Nonconformance_openedById_fkey" FOREIGN KEY ("openedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Nonconformance" ADD CONSTRAINT "Nonconformance_decidedById_fkey" FOREIGN KEY ("decidedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Release" ADD CONSTRAINT "Release_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Release" ADD CONSTRAINT "Release_byId_fkey" FOREIGN KEY ("byId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReleasePiece" ADD CONSTRAINT "ReleasePiece_releaseId_fkey" FOREIGN KEY ("releaseId") REFERENCES "Release"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReleasePiece" ADD CONSTRAINT "ReleasePiece_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What a row must obey, beyond what the schema can say.
alter table "Shop" add constraint one_shop check (id = 1);
alter table "Shop" add constraint shop_ranges check (
  "taxPpm" between 0 and 1000000 and "quoteValidDays" between 1 and 3650
  and "pressUseFraction" > 0 and "pressUseFraction" <= 1
  and "gripMm" >= 0 and "trimMm" >= 0 and "kerfMm" >= 0
);
alter table "PartRevision" add constraint tube_ranges check (
  "widthMm" > 0 and "heightMm" > 0 and "wallMm" > 0 and "wallMm" < least("widthMm", "heightMm") / 2
  and (shape = 'rectangular' or "widthMm" = "heightMm")
  and "straightAfterMm" >= 0 and "typicalQuantity" > 0
  and "angleToleranceDeg" > 0 and "lengthToleranceMm" > 0
);
alter table "Bend" add constraint bend_ranges check (
  position between 1 and 100 and "straightBeforeMm" >= 0 and "angleDeg" > 0 and "angleDeg" < 180
  and "centrelineRadiusMm" > 0 and "rotationDeg" between -360 and 360 and (position > 1 or "rotationDeg" = 0)
);
alter table "Press" add constraint press_ranges check (
  "capacityKn" > 0 and "supportNoseRadiusMm" >= 0 and "minimumSpanMm" > 0 and "maximumSpanMm" >= "minimumSpanMm"
);
alter table "Die" add constraint die_ranges check ("surfaceRadiusMm" > 0);
alter table "Strap" add constraint strap_ranges check ("thicknessMm" > 0 and "widthMm" > 0 and "lengthMm" > 0 and "yieldMPa" > 0);
alter table "StockLot" add constraint lot_ranges check (
  "widthMm" > 0 and "heightMm" > 0 and "wallMm" > 0 and "wallMm" < least("widthMm", "heightMm") / 2 and "priceCentsPerM" >= 0
);
alter table "StockPiece" add constraint stock_piece_length check ("lengthMm" > 0);
alter table "Ask" add constraint ask_ranges check (
  "toolingCents" >= 0 and "setUpCents" >= 0 and "minimumOrderCents" >= 0 and "freightCents" >= 0
  and "expectedRejectFraction" >= 0 and "expectedRejectFraction" < 1
);
alter table "AskPrice" add constraint ask_price_ranges check (quantity > 0 and "unitCents" >= 0);
alter table "QuoteBreak" add constraint quote_break_ranges check (quantity > 0 and "unitCents" >= 0);
alter table "Job" add constraint job_ranges check (quantity > 0);
alter table "Piece" add constraint piece_number check (number > 0);
alter table "BendRecord" add constraint bend_record_ranges check ("bendPosition" > 0 and "tryNumber" > 0 and "gaugeUncertaintyDeg" >= 0);
alter table "Nonconformance" add constraint decided_whole check (
  (disposition is null) = ("decidedAt" is null) and (disposition is null) = ("decidedById" is null)
);

-- The audit trail only grows.
create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% is kept as it was written', tg_table_name using errcode = 'restrict_violation';
end $$;
create trigger audit_only_grows before update or delete on "AuditEntry" for each row execute function refuse_change();
create trigger audit_never_emptied before truncate on "AuditEntry" for each statement execute function refuse_change();

-- Removing the demo shop says so for its transaction: set local bendwright.removing_demo = 'on'.
create function removing_demo() returns boolean language sql stable as $$
  select coalesce(current_setting('bendwright.removing_demo', true), '') = 'on'
$$;

-- A try at a bend is completed while it waits for its measurement, then never changes.
create function keep_bend_record() returns trigger language plpgsql as $$
begin
  if tg_op = 'DELETE' then
    if removing_demo() then return old; end if;
    raise exception 'a try at a bend is kept for ever' using errcode = 'restrict_violation';
  end if;
  if old.verdict <> 'waiting' then
    raise exception 'a judged try at a bend is never changed' using errcode = 'restrict_violation';
  end if;
  return new;
end $$;
create trigger bend_record_kept before update or delete on "BendRecord" for each row execute function keep_bend_record();

-- A frozen revision of a part keeps its tube, bends and tolerances; a change makes the next revision.
create function keep_frozen_revision() returns trigger language plpgsql as $$
begin
  if removing_demo() then
    return case tg_op when 'DELETE' then old else new end;
  end if;
  if old."frozenAt" is not null then
    if tg_op = 'DELETE' then
      raise exception 'a frozen revision is kept' using errcode = 'restrict_violation';
    end if;
    if (to_jsonb(new) - 'version') is distinct from (to_jsonb(old) - 'version') then
      raise exception 'a frozen revision is never changed' using errcode = 'restrict_violation';
    end if;
  end if;
  return case tg_op when 'DELETE' then old else new end;
end $$;
create trigger frozen_revision_kept before update or delete on "PartRevision" for each row execute function keep_frozen_revision();

create function keep_frozen_bends() returns trigger language plpgsql as $$
begin
  if not removing_demo() and exists (
    select 1 from "PartRevision" r
    where r.id = coalesce(new."revisionId", old."revisionId") and r."frozenAt" is not null
  ) then
    raise exception 'the bends of a frozen revision are never changed' using errcode = 'restrict_violation';
  end if;
  return case tg_op when 'DELETE' then old else new end;
end $$;
create trigger frozen_bends_kept before insert or update or delete on "Bend" for each row execute function keep_frozen_bends();
