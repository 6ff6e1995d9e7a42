// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/scanreader.h"
#include "appraisal/importing.h"
#include "backup/houselock.h"
#include "cli/commandline.h"
#include "cli/shipped.h"
#include "evidence/transcriptstore.h"
#include "record/recordhtml.h"
#include "record/recordpdf.h"
#include "record/tagpdf.h"
#include "storage/serverrights.h"

#include <QFile>
#include <QFileInfo>

namespace ramplight::cli {

namespace {

/// One file; says what came of it.
int importOne(const QString& path, const QString& asName, OpenHouse& house, Terminal& terminal)
{
    const auto bytes = readFile(path, maxAppraisalBytes + 1);
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    const auto appraisal = readAppraisal(*bytes, appraisalSchema());
    if (!appraisal) {
        for (const FileFault& fault : appraisal.error())
            terminal.err << path << ": " << fault.words << Qt::endl;
        terminal.err << path << ": nothing was taken in." << Qt::endl;
        return BadData;
    }
    for (const QString& note : appraisal->notes)
        terminal.err << path << ": " << note << Qt::endl;
    const auto site = house.store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    const PersonId appraiser = appraiserOf(*appraisal, *site);
    PersonId by = asName.isEmpty() ? appraiser : PersonId{};
    if (by.isNull()) {
        const auto found = actor(*site, asName, Right::Appraise);
        if (!found)
            return failed(terminal, found.error(), NoPermission);
        by = *found;
    }
    const CarRequest request = requestFrom(*appraisal, by, appraiser);
    const auto known = house.store().ledger().isKnown(request.id);
    if (known && *known) {
        terminal.out << appraisal->identity.stockNumber << ": was taken in before, nothing changed."
                     << Qt::endl;
        return Ok;
    }
    const auto outcome = house.workshop().run(request);
    if (!outcome)
        return failed(terminal, QStringLiteral("%1: %2").arg(path, words(outcome.error())),
                      BadData);
    terminal.out << appraisal->identity.stockNumber << ": " << outcome->car.findings.size()
                 << " findings, " << outcome->car.openOperations().size() << " operations."
                 << Qt::endl;
    return Ok;
}

/// path: a file, or what the code on a record's first page says.
int verifyRecord(const QString& path, OpenHouse& house, Terminal& terminal)
{
    const bool isCode = isStampCode(path.toUtf8());
    const auto bytes = isCode ? path.toUtf8() : readFile(path);
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    const auto stamp = readStamp(*bytes);
    if (!stamp)
        return failed(terminal, stamp.error(), BadData);
    SqlLedger& ledger = house.store().ledger();
    const CarId id{stamp->car};
    const auto history = ledger.history(id);
    const auto site = ledger.site();
    const auto head = ledger.headAt(id, stamp->seq);
    const auto car = ledger.car(id);
    if (!history || !site || !head || !car)
        return failed(terminal, QStringLiteral("The ledger cannot be read."), Unavailable);
    if (!car->exists())
        return failed(terminal,
                      QStringLiteral("The ledger knows no such car: %1.").arg(stamp->stockNumber),
                      Different);
    const RecordCheck check = checkRecord(*stamp, *car, *history, *site, {head->seq, head->hash},
                                          house.catalogue().standingLine);
    terminal.out << check.words << Qt::endl;
    const RecordSeal seal = sealOf(*bytes, sealerOf(ledger));
    if (isCode)
        terminal.out << "The code was compared, not the words around it: hold the paper beside a "
                        "record made now."
                     << Qt::endl;
    else if (seal == RecordSeal::Broken)
        terminal.out << "But its seal is not this workshop's: somebody changed the record and its "
                        "stamp together. Do not rely on it."
                     << Qt::endl;
    else if (seal != RecordSeal::Whole)
        terminal.out
            << "But it carries no seal that could be checked here: what it shows may not be "
               "what it stands for. Hold it beside a record made now."
            << Qt::endl;
    return check.agrees && (isCode || seal == RecordSeal::Whole) ? Ok : Different;
}

} // namespace

tl::expected<RecordModel, QString> recordOf(const CarId& id, const SiteState& site,
                                            OpenHouse& house, Moment now)
{
    SqlLedger& ledger = house.store().ledger();
    const auto car = ledger.car(id);
    const auto history = ledger.history(id);
    const auto head = ledger.head(id);
    if (!car || !history || !head)
        return tl::unexpected(QStringLiteral("The ledger cannot be read."));
    return buildRecord(*car, *history, site, {head->seq, head->hash},
                       house.catalogue().standingLine, now);
}

RecordSealer sealerOf(const SqlLedger& ledger)
{
    const HeadKeeper& keeper = ledger.keeper();
    return {keeper.keyId, keeper.digest, [&keeper](const QString& id, const QByteArray& bytes) {
                const HeadKeeper past = keeper.with(id);
                return past.canSeal() ? past.digest(bytes) : QByteArray();
            }};
}

int importFiles(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    if (arguments.isEmpty())
        return usage(terminal, *find(QStringLiteral("import")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    int worst = Ok;
    for (const QString& path : arguments)
        worst = std::max(worst, importOne(path, asName, *house, terminal));
    return worst;
}

int verify(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString recordFile = takeOption(arguments, QStringLiteral("--record"));
    if (!arguments.isEmpty())
        return usage(terminal, *find(QStringLiteral("verify")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    if (!recordFile.isEmpty())
        return verifyRecord(recordFile, *house, terminal);
    auto known = knownCatalogues();
    if (!known)
        return failed(terminal, known.error(), Unavailable);
    VerifyReport report =
        Verifier(house->store().ledger(), photoCheck(house->photos()), std::move(*known)).run();
    const TranscriptStore words(terminal.paths.transcripts());
    for (const TranscriptId& id : words.damaged())
        report.faults.push_back(
            {QStringLiteral("transcript %1").arg(id.text), words.open(id).error()});
    for (const LedgerFault& fault : report.faults)
        terminal.out << fault.told() << Qt::endl;
    for (const QString& remark : report.remarks)
        terminal.out << "Remark: " << remark << Qt::endl;
    if (const QString rights = warningOfRights(house->store().ledger().connection());
        !rights.isEmpty())
        terminal.err << "Careful: " << rights << Qt::endl;
    for (const QString& skipped : report.notChecked)
        terminal.out << "Not checked: " << skipped << Qt::endl;
    terminal.out << report.cars << " cars, " << report.entries << " entries, " << report.photos
                 << " photos";
    if (report.photosRemoved > 0)
        terminal.out << " (" << report.photosRemoved << " removed as the house rules ask)";
    terminal.out << ": "
                 << (report.isWhole() ? QStringLiteral("all is whole.")
                                      : QStringLiteral("%1 faults.").arg(report.faults.size()))
                 << Qt::endl;
    if (const LedgerFault* newer = report.newer())
        terminal.err << newerEntry(newer->told()).words << Qt::endl;
    return report.isWhole() ? Ok : Different;
}

int rebuild(const QStringList& arguments, Terminal& terminal)
{
    if (!arguments.isEmpty())
        return usage(terminal, *find(QStringLiteral("rebuild")));
    const auto settings = HouseSettings::read(terminal.paths);
    if (!settings)
        return failed(terminal, settings.error(), Unavailable);
    const bool isFile = settings->store.kind == StoreKind::Sqlite;
    if (auto house = OpenHouse::open(terminal.paths, terminal.clock, false)) {
        SqlLedger& ledger = (*house)->store().ledger();
        Connection& connection = ledger.connection();
        // What the disk damaged is not written to, nor what has guards of somebody else.
        if (!isFile || (connection.dialect().ownCheck(connection.database()).isEmpty() &&
                        connection.dialect().foreignSchema(connection.database()).isEmpty())) {
            const auto cars = rebuildReadTables(ledger);
            if (!cars)
                return failed(terminal, cars.error().words, Unavailable);
            terminal.out << *cars << " cars made anew." << Qt::endl;
            return Ok;
        }
    } else if (!isFile || !QFileInfo::exists(terminal.paths.database())) {
        return failed(terminal, house.error(), Unavailable);
    }
    // The disk damaged the file itself: into a new one, out of the ledger.
    const auto remade = remakeHouse(terminal.paths, *settings, terminal.clock.now());
    if (!remade)
        return failed(terminal, remade.error(), Unavailable);
    terminal.out << "The file was damaged and its ledger is whole: " << remade->cars << " cars, "
                 << remade->entries << " entries are in a new one, checked. The damaged one is now "
                 << remade->setAside << "." << Qt::endl;
    return Ok;
}

int record(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString out = takeOption(arguments, QStringLiteral("--out"));
    if (arguments.size() != 1 || out.isEmpty())
        return usage(terminal, *find(QStringLiteral("record")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    SqlLedger& ledger = house->store().ledger();
    const auto id = carCalled(arguments.first(), *house, terminal);
    if (!id)
        return id.error();
    const auto site = ledger.site();
    if (!site)
        return failed(terminal, QStringLiteral("The ledger cannot be read."), Unavailable);
    const auto model = recordOf(*id, *site, *house, terminal.clock.now());
    if (!model)
        return failed(terminal, model.error(), Unavailable);
    const auto made = QFileInfo(out).suffix().startsWith(QLatin1String("htm"), Qt::CaseInsensitive)
                          ? renderHtml(*model, house->photos(), sealerOf(ledger))
                          : renderPdf(*model, house->photos(), sealerOf(ledger));
    if (!made)
        return failed(terminal, made.error(), Unavailable);
    if (const int code = writeWhole(out, *made, terminal); code != Ok)
        return code;
    terminal.out << out << ": " << model->fingerprint << Qt::endl;
    return Ok;
}

int tag(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString out = takeOption(arguments, QStringLiteral("--out"));
    if (arguments.size() != 2 || out.isEmpty())
        return usage(terminal, *find(QStringLiteral("tag")));
    const PlaceId wheel = wheelOfCorner(arguments.at(1));
    if (wheel.isEmpty())
        return failed(terminal,
                      QStringLiteral("%1 is no corner: FL, FR, RL, RR or SP.").arg(arguments.at(1)),
                      BadData);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    SqlLedger& ledger = house->store().ledger();
    const auto id = carCalled(arguments.first(), *house, terminal);
    if (!id)
        return id.error();
    const auto car = ledger.car(*id);
    const auto site = ledger.site();
    if (!car || !site)
        return failed(terminal, QStringLiteral("The ledger cannot be read."), Unavailable);
    const auto pdf = renderTagPdf(tagOf(*car, wheel, site->rules, ScanRules{}.wheelPrefix));
    if (!pdf)
        return failed(terminal, pdf.error(), BadData);
    if (const int code = writeWhole(out, *pdf, terminal); code != Ok)
        return code;
    terminal.out << out << ": " << ScanRules{}.wheelPrefix
                 << tagCode({car->identity.stockNumber, wheel}) << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
