// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordstamp.h"

#include <QCoreApplication>
#include <QCryptographicHash>
#include <QJsonDocument>

#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <exception>
#include <memory>
#include <string>

namespace ramplight {

namespace {

constexpr const char* stampName = "ramplight-record.json";
constexpr qsizetype mostStampBytes = 16 * 1024;
// A record with two hundred photos stays far below; more than this is not read.
constexpr qsizetype mostPdfBytes = 256LL * 1024 * 1024;

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

void addStream(QCryptographicHash& hash, QPDFObjectHandle stream)
{
    Pl_Buffer decoded("record");
    bool filtered = false;
    stream.pipeStreamData(&decoded, &filtered, 0, qpdf_dl_generalized, true);
    decoded.finish();
    const auto bytes = decoded.getBufferSharedPointer();
    hash.addData(QByteArrayView(bytes->getBuffer(), static_cast<qsizetype>(bytes->getSize())));
}

/// What the pages show: their drawing commands and their pictures, in order.
QString pagesHash(QPDF& pdf)
{
    QCryptographicHash hash(QCryptographicHash::Sha256);
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
        for (QPDFObjectHandle& contents : page.getPageContents())
            addStream(hash, contents);
        for (auto& [name, picture] : page.getImages())
            addStream(hash, picture);
    }
    return QString::fromLatin1(hash.result().toHex());
}

struct StampFile
{
    RecordStamp stamp;
    QString pages; ///< hash over what the pages show

    static constexpr auto fields =
        std::tuple{field("stamp", &StampFile::stamp), field("pages", &StampFile::pages)};
    friend bool operator==(const StampFile&, const StampFile&) = default;
};

void open(QPDF& pdf, const QByteArray& bytes)
{
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("record", bytes.constData(), static_cast<size_t>(bytes.size()));
}

QByteArray attachedStamp(QPDF& pdf)
{
    QPDFEmbeddedFileDocumentHelper files(pdf);
    const auto file = files.getEmbeddedFile(stampName);
    if (!file)
        return {};
    QPDFObjectHandle stream = file->getEmbeddedFileStream();
    if (!stream.isStream())
        return {};
    // Looked at before it is unpacked, so that a small file cannot become a large one.
    if (stream.getRawStreamData()->getSize() > mostStampBytes)
        return {};
    const auto data = stream.getStreamData(qpdf_dl_generalized);
    return {reinterpret_cast<const char*>(data->getBuffer()),
            static_cast<qsizetype>(data->getSize())};
}

} // namespace

tl::expected<QByteArray, QString> stampPdf(const QByteArray& bytes, const RecordStamp& stamp)
{
    try {
        QPDF pdf;
        open(pdf, bytes);
        const StampFile file{stamp, pagesHash(pdf)};
        const std::string json =
            QJsonDocument(toJson(file)).toJson(QJsonDocument::Compact).toStdString();
        auto stream = QPDFEFStreamObjectHelper::createEFStream(pdf, json);
        stream.setSubtype("application/json");
        auto spec = QPDFFileSpecObjectHelper::createFileSpec(pdf, stampName, stream);
        QPDFEmbeddedFileDocumentHelper(pdf).replaceEmbeddedFile(stampName, spec);
        QPDFWriter writer(pdf);
        writer.setOutputMemory();
        // The same record gives the same bytes.
        writer.setDeterministicID(true);
        writer.write();
        const auto out = writer.getBufferSharedPointer();
        return QByteArray(reinterpret_cast<const char*>(out->getBuffer()),
                          static_cast<qsizetype>(out->getSize()));
    } catch (const std::exception& e) {
        return tl::unexpected(
            say("The record could not be stamped: %1.").arg(QString::fromUtf8(e.what())));
    }
}

tl::expected<RecordStamp, QString> readStamp(const QByteArray& bytes)
{
    if (bytes.size() > mostPdfBytes)
        return tl::unexpected(say("This file is too large to be a handover record."));
    try {
        QPDF pdf;
        open(pdf, bytes);
        const QByteArray json = attachedStamp(pdf);
        if (json.isEmpty())
            return tl::unexpected(say("This PDF carries no stamp of a handover record."));
        StampFile file;
        if (const CodecError error = fromJson(QJsonDocument::fromJson(json).object(), file);
            !error.isEmpty())
            return tl::unexpected(say("The stamp cannot be read: %1.").arg(error.words()));
        if (file.stamp.car.isEmpty() || file.stamp.seq <= 0 || file.stamp.modelDigest.isEmpty())
            return tl::unexpected(say("The stamp is not complete."));
        if (file.pages != pagesHash(pdf))
            return tl::unexpected(say("The pages of this PDF were changed after it was made."));
        return file.stamp;
    } catch (const std::exception& e) {
        return tl::unexpected(
            say("This file cannot be read as a PDF: %1.").arg(QString::fromUtf8(e.what())));
    }
}

} // namespace ramplight
