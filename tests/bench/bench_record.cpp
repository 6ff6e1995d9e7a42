// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"
#include "record/recordbench.h"

#include "evidence/photostore.h"
#include "record/recordhtml.h"
#include "record/recordpdf.h"

#include <QBuffer>
#include <QElapsedTimer>
#include <QPainter>
#include <QPdfWriter>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The record of a car with 35 findings and 60 photos, as PDF and as HTML: how long and how large.
// Bare: the same photos, painted into a PDF with nothing beside them.
class BenchRecord : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private:
    /// About as hard to encode as a photo: broad tones, edges, and a sensor's noise.
    static QImage photo(quint32 seed)
    {
        QImage image(2560, 1920, QImage::Format_RGB32);
        QRandomGenerator random(seed);
        QPainter painter(&image);
        QLinearGradient sky(0, 0, 900, 1920);
        sky.setColorAt(0, QColor::fromHsv(random.bounded(360), 40, 220));
        sky.setColorAt(1, QColor::fromHsv(random.bounded(360), 90, 60));
        painter.fillRect(image.rect(), sky);
        for (int i = 0; i < 400; ++i) {
            painter.setPen(QPen(QColor::fromRgb(random.generate()), 1 + random.bounded(12)));
            painter.drawLine(random.bounded(2560), random.bounded(1920), random.bounded(2560),
                             random.bounded(1920));
        }
        painter.end();
        for (int y = 0; y < image.height(); ++y) {
            auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
            for (int x = 0; x < image.width(); ++x) {
                const int noise = int(random.generate() & 15U) - 8;
                line[x] = qRgb(std::clamp(qRed(line[x]) + noise, 0, 255),
                               std::clamp(qGreen(line[x]) + noise, 0, 255),
                               std::clamp(qBlue(line[x]) + noise, 0, 255));
            }
        }
        return image;
    }

    static qsizetype photosIn(const RecordModel& record)
    {
        std::size_t count = record.photos.size();
        for (const RecordFinding& finding : record.findings)
            count += finding.photos.size();
        for (const RecordOperation& operation : record.operations)
            count += operation.photos.size();
        return qsizetype(count);
    }

    static QByteArray bare(const PhotoVault& photos, const std::vector<PhotoId>& ids)
    {
        QByteArray pdf;
        QBuffer buffer(&pdf);
        buffer.open(QIODevice::WriteOnly);
        QPdfWriter writer(&buffer);
        writer.setResolution(2540);
        QPainter painter(&writer);
        for (std::size_t i = 0; i < ids.size(); ++i) {
            if (i > 0 && i % 12 == 0)
                writer.newPage();
            const auto jpeg = photos.thumbnail(ids[i], ThumbnailSize::Panel);
            const QImage image = jpeg ? QImage::fromData(*jpeg) : QImage();
            painter.drawImage(QRectF(double(i % 3) * 5000, double(i / 3 % 4) * 4500, 4600, 3450),
                              image);
        }
        painter.end();
        return pdf;
    }

private slots:
    void aCarWith35FindingsAnd60Photos()
    {
        constexpr int findings = 35;
        constexpr int shots = 60;
        constexpr int rounds = 5;
        const QTemporaryDir folder;
        PhotoStore photos(folder.path());
        RecordBench bench;
        const CarId id = bench.bringIn();
        std::vector<FindingId> found;
        const auto places = allPlaces();
        for (int i = 0; i < findings; ++i)
            found.push_back(bench.foundTo(id, qPrintable(places[std::size_t(i)].id.text),
                                          Condition::Scratch, Remedy::Leave));
        std::vector<PhotoId> ids;
        for (int i = 0; i < shots; ++i) {
            const auto kept = photos.keep(photo(quint32(i + 1)));
            QVERIFY(kept.has_value());
            ids.push_back(kept->id);
            bench.must(
                bench.appraiser, id,
                car::AttachPhoto{
                    kept->id, PhotoMoment::Before, {}, {}, found[std::size_t(i) % found.size()]});
        }
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        const RecordModel record = bench.record(id);
        QVERIFY(record.findings.size() >= findings);
        QVERIFY(photosIn(record) >= shots);
        std::vector<double> pdfMs;
        std::vector<double> htmlMs;
        std::vector<double> bareMs;
        qsizetype pdfBytes = 0;
        qsizetype htmlBytes = 0;
        QElapsedTimer timer;
        const auto took = [&] { return double(timer.nsecsElapsed()) / 1e6; };
        for (int i = 0; i < rounds; ++i) {
            timer.start();
            const auto pdf = renderPdf(record, photos);
            pdfMs.push_back(took());
            timer.start();
            const auto html = renderHtml(record, photos);
            htmlMs.push_back(took());
            timer.start();
            QVERIFY(!bare(photos, ids).isEmpty());
            bareMs.push_back(took());
            QVERIFY(pdf.has_value() && html.has_value());
            pdfBytes = pdf->size();
            htmlBytes = html->size();
            if (const QString keep = qEnvironmentVariable("RAMPLIGHT_RECORD_OUT");
                !keep.isEmpty()) {
                QFile file(keep + QStringLiteral("/bench.pdf"));
                QVERIFY(file.open(QIODevice::WriteOnly) && file.write(*pdf) == pdf->size());
            }
        }
        constexpr double most = 15;
        qInfo("%lld findings, %lld photos; HTML in %.0f ms", qint64(record.findings.size()),
              qint64(photosIn(record)), quantile(htmlMs, 0.5));
        tell(QStringLiteral("PDF by the photos alone"), quantile(pdfMs, 0.5), quantile(bareMs, 0.5),
             QStringLiteral("ms"), Aim::AtMost, 2);
        tell(QStringLiteral("size of the PDF by one MB"), double(pdfBytes) / 1e6, 1,
             QStringLiteral("MB"), Aim::Under, most);
        tell(QStringLiteral("size of the HTML by one MB"), double(htmlBytes) / 1e6, 1,
             QStringLiteral("MB"), Aim::Under, most);
    }
};

QTEST_MAIN(BenchRecord)
#include "bench_record.moc"
