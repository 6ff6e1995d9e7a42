// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's tray: photos, appraisals and houses that are brought as files, in the drop folder or
// on a stick.
#include "appraisal/importing.h"
#include "desk/workshopdesk.h"
#include "domain/housecatalogue.h"
#include "domain/housefile.h"
#include "evidence/broughtfolders.h"
#include "evidence/dropfolder.h"
#include "evidence/durablefile.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>

#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <utility>

namespace ramplight {

namespace {

constexpr std::size_t mostBrought = 120; ///< photos, files in one list to pick from
/// As the house writes itself into the drop folder.
constexpr const char* houseFile = "house.json";
constexpr const char* catalogueFile = "catalogue.json";

/// The newest first, as many as anybody would look through.
std::vector<DroppedFile> newestFirst(std::vector<DroppedFile> files)
{
    std::ranges::stable_sort(files, std::greater{}, &DroppedFile::modified);
    if (files.size() > mostBrought)
        files.resize(mostBrought);
    return files;
}

/// A stick that cannot be read is left out: the drop folder is what this house has.
tl::expected<std::vector<DroppedFile>, EvidenceError> broughtPhotos(const QString& dropFolder,
                                                                    const QStringList& sticks)
{
    std::vector<DroppedFile> files;
    for (const BroughtFolder& folder : broughtFolders(dropFolder, sticks))
        for (const QString& path :
             folder.isStick() ? cameraFolders(folder.path) : QStringList{folder.path}) {
            const auto listed = DropFolder(path).list();
            if (!listed && !folder.isStick())
                return tl::unexpected(listed.error());
            if (listed)
                for (const DropCandidate& candidate : *listed)
                    files.push_back(
                        {candidate.path, candidate.name, candidate.modified, folder.name});
        }
    return newestFirst(std::move(files));
}

tl::expected<std::vector<DroppedFile>, EvidenceError> jsonFiles(const QString& path)
{
    const QDir folder(path);
    if (!folder.exists())
        return tl::unexpected(EvidenceError::FolderMissing);
    std::vector<DroppedFile> files;
    for (const QFileInfo& file : folder.entryInfoList({QStringLiteral("*.json")},
                                                      QDir::Files | QDir::NoSymLinks, QDir::Time))
        files.push_back({file.absoluteFilePath(), file.fileName(),
                         Moment{file.lastModified().toMSecsSinceEpoch()}});
    return files;
}

tl::expected<QByteArray, ImportFaults> readWhole(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            ImportFaults{{QStringLiteral("%1 cannot be read: %2.").arg(path, file.errorString())}});
    return file.read(maxAppraisalBytes + 1);
}

} // namespace

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> WorkshopDesk::droppedFiles()
{
    return onPool([drop = m_places.dropFolder, sticks = m_places.speech.sticks] {
        return broughtPhotos(drop, sticks);
    });
}

QFuture<tl::expected<ImportReport, ImportFaults>> WorkshopDesk::importAppraisal(const QString& path,
                                                                                PersonId actor)
{
    using Result = tl::expected<ImportReport, ImportFaults>;
    return onPool([=, this, schema = m_places.appraisalSchema]() -> Result {
        const auto bytes = readWhole(path);
        if (!bytes)
            return tl::unexpected(bytes.error());
        const auto file = readAppraisal(*bytes, schema);
        if (!file) {
            ImportFaults faults;
            for (const FileFault& fault : file.error())
                faults.faults.append(fault.words);
            return tl::unexpected(faults);
        }
        using Known = tl::expected<bool, Failure>;
        const auto wasKnown = askStore([&](Workshop& workshop, Store& store) -> Known {
            const auto site = store.ledger().site();
            if (!site)
                return tl::unexpected<Failure>(site.error());
            const CarRequest request = requestFrom(*file, actor, appraiserOf(*file, *site));
            const auto known = store.ledger().isKnown(request.id);
            if (!known)
                return tl::unexpected<Failure>(known.error());
            if (const auto outcome = workshop.run(request); !outcome)
                return tl::unexpected(outcome.error());
            return *known;
        });
        if (!wasKnown)
            return tl::unexpected(ImportFaults{{words(wasKnown.error())}});
        return ImportReport{{file->identity.stockNumber}, *wasKnown};
    });
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> WorkshopDesk::appraisalFiles()
{
    using Result = tl::expected<std::vector<DroppedFile>, EvidenceError>;
    return onPool([drop = m_places.dropFolder, sticks = m_places.speech.sticks]() -> Result {
        std::vector<DroppedFile> files;
        for (const BroughtFolder& folder : broughtFolders(drop, sticks)) {
            const auto listed = jsonFiles(folder.path);
            if (!listed && !folder.isStick())
                return tl::unexpected(listed.error());
            if (!listed)
                continue;
            for (DroppedFile file : *listed)
                if (file.name != QLatin1StringView(houseFile) &&
                    file.name != QLatin1StringView(catalogueFile)) {
                    file.stick = folder.name;
                    files.push_back(std::move(file));
                }
        }
        return newestFirst(std::move(files));
    });
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> WorkshopDesk::houseFiles()
{
    return onPool([folder = m_places.dropFolder] { return jsonFiles(folder); });
}

QFuture<tl::expected<QString, QString>> WorkshopDesk::exportHouse()
{
    using Result = tl::expected<QString, QString>;
    return m_store.run([folder = m_places.dropFolder](Workshop& workshop, Store& store) -> Result {
        const auto site = store.ledger().site();
        if (!site)
            return tl::unexpected(site.error().words);
        const QByteArray catalogue = writeCatalogue(baseCatalogue(workshop.catalogue(), *site));
        for (const auto& [name, bytes] :
             {std::pair{houseFile, writeHouse(*site)}, std::pair{catalogueFile, catalogue}}) {
            const QString path = QDir(folder).filePath(QString::fromLatin1(name));
            if (const auto kept = writeFileDurably(path, folder, bytes); !kept)
                return tl::unexpected(QStringLiteral("%1 was not written: %2.")
                                          .arg(path, whyNotWritten(kept.error())));
        }
        return folder;
    });
}

QFuture<tl::expected<void, QStringList>>
WorkshopDesk::importHouse(const CommandId& request, PersonId actor, const QString& path)
{
    using Result = tl::expected<void, QStringList>;
    return onPool([=, this, pins = m_pins]() -> Result {
        using Done = tl::expected<void, Failure>;
        // What is in such a file are rules and rights.
        const auto mayAsk = [&]() -> Done {
            return pins->has(actor, request)
                       ? Done()
                       : tl::unexpected<Failure>(Refusal{RefusalId::PinNotFresh, {}});
        };
        if (const auto may = askStore([&](Workshop&, Store&) { return mayAsk(); }); !may)
            return tl::unexpected(QStringList{words(may.error())});
        const auto bytes = readWhole(path);
        if (!bytes)
            return tl::unexpected(bytes.error().faults);
        // A catalogue has operations; a house's file has its rules.
        const bool isCatalogue =
            QJsonDocument::fromJson(*bytes).object().contains(QLatin1StringView("operations"));
        QStringList faults;
        const auto taken = askStore([&](Workshop& workshop, Store&) -> Done {
            if (isCatalogue)
                return workshop.run(SiteRequest{request, actor, site::AdoptCatalogue{*bytes}, {}})
                    .map([](const SiteOutcome&) {});
            const auto site = workshop.ledger().site();
            if (!site)
                return tl::unexpected<Failure>(site.error());
            const auto file = readHouse(*bytes, *site);
            faults = file ? QStringList() : file.error();
            return file ? takeHouse(workshop, actor, request, *file) : Done();
        });
        if (!taken)
            faults = {words(taken.error())};
        return faults.isEmpty() ? Result() : tl::unexpected(faults);
    });
}

} // namespace ramplight
