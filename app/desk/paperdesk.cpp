// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's paper: door sheets and wheel tags, and the way of every page to a printer, the
// records' folder or a stick.
#include "access/scanreader.h"
#include "desk/sticks.h"
#include "desk/workshopdesk.h"
#include "domain/say.h"
#include "domain/wheeltag.h"
#include "evidence/durablefile.h"
#include "record/doorsheet.h"
#include "record/tagpdf.h"

#include <QDir>

#include <sys/stat.h>

namespace ramplight {

namespace {

constexpr double screenDpi = 130;

/// A car and the house that it stands in.
struct CarInHouse
{
    CarState car;
    SiteState site;
};

QFuture<tl::expected<CarInHouse, QString>> carInHouse(StoreThread& store, const CarId& car)
{
    using Result = tl::expected<CarInHouse, QString>;
    return store.run([car](Workshop&, Store& opened) -> Result {
        auto state = opened.ledger().car(car);
        if (!state)
            return tl::unexpected(state.error().words);
        auto site = opened.ledger().site();
        if (!site)
            return tl::unexpected(site.error().words);
        return CarInHouse{std::move(*state), std::move(*site)};
    });
}

} // namespace

QFuture<tl::expected<PaperMade, QString>> WorkshopDesk::makeDoorSheet(const CarId& car)
{
    using Result = tl::expected<PaperMade, QString>;
    return carInHouse(m_store, car)
        .then(&m_pool,
              [now = m_clock.now()](const tl::expected<CarInHouse, QString>& read) -> Result {
                  if (!read)
                      return tl::unexpected(read.error());
                  const Identity& identity = read->car.identity;
                  const auto model =
                      doorSheetOf(read->car, read->site,
                                  carLabelCode({}, identity.stockNumber, identity.vin), now);
                  if (!model)
                      return tl::unexpected(model.error());
                  const auto pdf = renderDoorSheetPdf(*model);
                  if (!pdf)
                      return tl::unexpected(pdf.error());
                  return PaperMade{say("Door sheet %1").arg(identity.stockNumber),
                                   paperFileName(QStringLiteral("door"), identity.stockNumber),
                                   *pdf, renderDoorSheetImage(*model, screenDpi)};
              });
}

QFuture<tl::expected<PaperMade, QString>> WorkshopDesk::makeWheelTag(const CarId& car,
                                                                     const PlaceId& wheel)
{
    using Result = tl::expected<PaperMade, QString>;
    return carInHouse(m_store, car)
        .then(&m_pool, [wheel](const tl::expected<CarInHouse, QString>& read) -> Result {
            if (!read)
                return tl::unexpected(read.error());
            const TagModel model =
                tagOf(read->car, wheel, read->site.rules, ScanRules{}.wheelPrefix);
            const auto pdf = renderTagPdf(model);
            if (!pdf)
                return tl::unexpected(pdf.error());
            return PaperMade{say("Wheel tag %1").arg(tagCode(model.tag)),
                             paperFileName(QStringLiteral("tag"), tagCode(model.tag)), *pdf,
                             renderTagImage(model, 2 * screenDpi)};
        });
}

QFuture<tl::expected<QString, QString>> WorkshopDesk::savePaper(const QString& fileName,
                                                                const QByteArray& pdf, KeepAt where)
{
    using Result = tl::expected<QString, QString>;
    return onPool([fileName, pdf, where, records = m_places.recordFolder,
                   roots = m_places.speech.sticks]() -> Result {
        QString folder = records;
        if (where == KeepAt::Stick) {
            const std::vector<Stick> sticks = sticksToWriteOn(roots);
            if (sticks.empty())
                return tl::unexpected(say("There is no stick in this kiosk that can be written "
                                          "on. Put one in, or save into the records' folder."));
            folder = sticks.front().path;
        }
        const QString path = QDir(folder).filePath(fileName);
        // On a stick for whoever reads it elsewhere.
        const auto kept = where == KeepAt::Stick
                              ? writeFileForOthers(path, pdf, S_IRUSR | S_IWUSR | S_IRGRP | S_IROTH)
                              : writeFileDurably(path, folder, pdf);
        if (!kept)
            return tl::unexpected(say("%1 was not saved: %2. It is still on the screen.")
                                      .arg(path, whyNotWritten(kept.error())));
        return path;
    });
}

QFuture<QString> WorkshopDesk::stickName()
{
    return onPool([roots = m_places.speech.sticks] {
        const std::vector<Stick> sticks = sticksToWriteOn(roots);
        return sticks.empty() ? QString() : sticks.front().name;
    });
}

QFuture<tl::expected<QString, QString>> WorkshopDesk::printPaper(const QString& title,
                                                                 const QByteArray& pdf)
{
    using Result = tl::expected<QString, QString>;
    return onPool([title, pdf, queue = m_places.printer, port = m_places.printing]() -> Result {
        if (queue.isEmpty())
            return tl::unexpected(say("No printer is set on this kiosk. A manager chooses one "
                                      "under Staff and bays, Settings, Screen."));
        if (port == nullptr)
            return tl::unexpected(say("This kiosk cannot print."));
        const auto taken = port->print(queue, title, pdf);
        if (!taken)
            return tl::unexpected(taken.error().words);
        return taken->waits.isEmpty() ? say("Sent to the printer %1.").arg(queue) : taken->waits;
    });
}

QFuture<tl::expected<std::vector<PrintQueue>, QString>> WorkshopDesk::printQueues()
{
    using Result = tl::expected<std::vector<PrintQueue>, QString>;
    return onPool([port = m_places.printing]() -> Result {
        if (port == nullptr)
            return tl::unexpected(say("This kiosk cannot print."));
        const auto queues = port->queues();
        if (!queues)
            return tl::unexpected(queues.error().words);
        return *queues;
    });
}

} // namespace ramplight
