// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Cars as folders of JSON, photos and records for whoever has to look at them without this program.
#include "cli/commandline.h"
#include "cli/privacy.h"
#include "record/exportcar.h"
#include "record/exportfolder.h"
#include "record/exporttables.h"
#include "record/recordpdf.h"

#include <QDateTime>
#include <QFileInfo>

namespace ramplight::cli {

namespace {

using Ended = tl::expected<void, QString>;

/// Reads cars of the ledger and writes them into one folder.
class Exporter
{
public:
    Exporter(OpenHouse& house, const SiteState& site, Moment now, ExportFolder& folder)
        : m_house(house)
        , m_site(site)
        , m_now(now)
        , m_folder(folder)
    {
    }

    Ended add(const CarId& id)
    {
        const auto read = recordOf(id, m_site, m_house, m_now);
        if (!read)
            return tl::unexpected(read.error());
        const RecordModel& model = *read;
        const QString name = freshName(model.identity.stockNumber);
        const auto missing = addPhotos(model, name);
        if (!missing)
            return tl::unexpected(missing.error());
        const auto pdf = renderPdf(model, m_house.photos(), sealerOf(m_house.store().ledger()));
        if (!pdf)
            return tl::unexpected(pdf.error());
        if (auto put = m_folder.add(name + QStringLiteral("/record.pdf"), *pdf); !put)
            return put;
        if (auto put =
                m_folder.add(name + QStringLiteral("/car.json"), exportedCar(model, *missing));
            !put)
            return put;
        m_tables.add(model);
        m_cars.append(QJsonObject{{QStringLiteral("folder"), name},
                                  {QStringLiteral("stockNumber"), model.identity.stockNumber},
                                  {QStringLiteral("car"), model.car.text},
                                  {QStringLiteral("fingerprint"), model.fingerprint}});
        return {};
    }

    Ended addTables()
    {
        for (const auto& [name, table] : {std::pair{"operations.csv", &m_tables.operations()},
                                          std::pair{"minutes.csv", &m_tables.minutes()},
                                          std::pair{"findings.csv", &m_tables.findings()}})
            if (auto put = m_folder.add(QString::fromLatin1(name), table->bytes()); !put)
                return put;
        return {};
    }

    [[nodiscard]] const QJsonArray& cars() const { return m_cars; }
    /// Photos that could not be read, in words.
    [[nodiscard]] const QStringList& faults() const { return m_faults; }

private:
    QString freshName(const QString& stockNumber)
    {
        // A number that was given free may have been given again.
        const QString name = folderNameOf(stockNumber);
        QString fresh = name;
        for (int again = 2; m_names.contains(fresh.toLower()); ++again)
            fresh = QStringLiteral("%1_%2").arg(name).arg(again);
        m_names.append(fresh.toLower());
        return fresh;
    }

    tl::expected<std::vector<PhotoId>, QString> addPhotos(const RecordModel& model,
                                                          const QString& name)
    {
        std::vector<PhotoId> missing;
        for (const PhotoId& photo : photosOf(model)) {
            const auto bytes = m_house.photos().open(photo);
            if (!bytes) {
                missing.push_back(photo);
                m_faults.append(QStringLiteral("%1: photo %2: %3")
                                    .arg(model.identity.stockNumber, photo.text.left(12),
                                         words(bytes.error())));
                continue;
            }
            if (auto put =
                    m_folder.add(QStringLiteral("%1/%2").arg(name, exportedPhoto(photo)), *bytes);
                !put)
                return tl::unexpected(put.error());
        }
        return missing;
    }

    OpenHouse& m_house;
    const SiteState& m_site;
    Moment m_now;
    ExportFolder& m_folder;
    ExportTables m_tables;
    QJsonArray m_cars;
    QStringList m_names;
    QStringList m_faults;
};

int write(OpenHouse& house, Terminal& terminal, const SiteState& site,
          const std::vector<CarId>& cars, ExportAbout about, const QString& out)
{
    const FilesForOthers readable;
    auto folder = ExportFolder::begin(out);
    if (!folder)
        return failed(terminal, folder.error(), Unavailable);
    const Moment now = terminal.clock.now();
    Exporter exporter(house, site, now, **folder);
    for (const CarId& car : cars)
        if (const auto added = exporter.add(car); !added)
            return failed(terminal, added.error(), Unavailable);
    if (const auto added = exporter.addTables(); !added)
        return failed(terminal, added.error(), Unavailable);
    about.site = site.name;
    about.demo = site.demo;
    about.madeAt = QDateTime::fromMSecsSinceEpoch(now.ms, Qt::UTC).toString(Qt::ISODateWithMs);
    about.cars = exporter.cars();
    const auto manifest = (*folder)->finish(about);
    if (!manifest)
        return failed(terminal, manifest.error(), Unavailable);
    for (const QString& fault : exporter.faults())
        terminal.err << fault << Qt::endl;
    terminal.out << out << ": " << cars.size() << (cars.size() == 1 ? " car" : " cars")
                 << ", manifest " << *manifest << Qt::endl;
    return exporter.faults().isEmpty() ? Ok : Different;
}

int exportCar(const QString& stockNumber, const QString& out, Terminal& terminal)
{
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    const auto car = carCalled(stockNumber, *house, terminal);
    if (!car)
        return car.error();
    ExportAbout about;
    about.stockNumber = stockNumber;
    return write(*house, terminal, *site, {*car}, about, out);
}

int exportPeriod(const QString& first, const QString& last, const QString& out, Terminal& terminal)
{
    ExportAbout about;
    about.from = QDate::fromString(first, Qt::ISODate);
    about.to = QDate::fromString(last, Qt::ISODate);
    if (!about.from.isValid() || !about.to.isValid() || about.to < about.from)
        return failed(terminal,
                      QStringLiteral("%1 to %2 is no period: two days like 2031-05-04, the first "
                                     "one first.")
                          .arg(first, last),
                      BadUsage);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    const auto cars = house->store().wall().inHouse(startOf(about.from, site->rules),
                                                    startOf(about.to.addDays(1), site->rules));
    if (!cars)
        return failed(terminal, cars.error().words, Unavailable);
    return write(*house, terminal, *site, *cars, about, out);
}

int checkFolder(const QString& folder, Terminal& terminal)
{
    const auto checked = checkExport(folder);
    if (!checked)
        return failed(terminal, checked.error(), QFileInfo::exists(folder) ? BadData : NoInput);
    for (const QString& fault : checked->faults)
        terminal.out << fault << Qt::endl;
    terminal.out << checked->files << " files, manifest " << checked->manifest << ": "
                 << (checked->faults.isEmpty()
                         ? QStringLiteral("all is as it was written.")
                         : QStringLiteral("%1 faults.").arg(checked->faults.size()))
                 << Qt::endl;
    return checked->faults.isEmpty() ? Ok : Different;
}

} // namespace

int exportFiles(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString out = takeOption(arguments, QStringLiteral("--out"));
    const QString what = arguments.value(0);
    if (what == QLatin1String("check") && arguments.size() == 2 && out.isEmpty())
        return checkFolder(arguments.at(1), terminal);
    if (what == QLatin1String("car") && arguments.size() == 2 && !out.isEmpty())
        return exportCar(arguments.at(1), out, terminal);
    if (what == QLatin1String("period") && arguments.size() == 3 && !out.isEmpty())
        return exportPeriod(arguments.at(1), arguments.at(2), out, terminal);
    return usage(terminal, *find(QStringLiteral("export")));
}

} // namespace ramplight::cli
