// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"
#include "record/stampfile.h"

#include <QCryptographicHash>

#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <exception>
#include <map>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>

namespace ramplight {

namespace {

constexpr const char* stampName = "ramplight-record.json";

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

/// Goes along all that a page is made of, and hashes it so that saving the file again in another
/// way changes nothing: no object numbers, no compression.
class ShownHash
{
public:
    void add(QPDFObjectHandle object, int depth = 0)
    {
        if (depth > deepest)
            throw std::runtime_error("nested too deeply");
        if (object.isIndirect()) {
            const auto [it, isNew] = m_seen.try_emplace(object.getObjGen(), m_seen.size());
            if (!isNew) {
                addText("again " + std::to_string(it->second));
                return;
            }
        }
        if (object.isStream()) {
            addText("stream");
            addKeys(object.getDict(), true, depth);
            addStream(m_hash, object);
        } else if (object.isDictionary()) {
            addText("dictionary");
            addKeys(object, false, depth);
        } else if (object.isArray()) {
            addText("array " + std::to_string(object.getArrayNItems()));
            for (int i = 0; i < object.getArrayNItems(); ++i)
                add(object.getArrayItem(i), depth + 1);
        } else {
            addText(object.unparseResolved());
        }
    }
    [[nodiscard]] QString result() const { return QString::fromLatin1(m_hash.result().toHex()); }

private:
    static constexpr int deepest = 60;

    void addText(const std::string& text)
    {
        m_hash.addData(QByteArrayView(text.c_str(), static_cast<qsizetype>(text.size()) + 1));
    }
    void addKeys(QPDFObjectHandle dictionary, bool ofStream, int depth)
    {
        static const std::set<std::string> packing{"/Length", "/Filter", "/DecodeParms"};
        for (const std::string& key : dictionary.getKeys()) {
            if (key == "/Parent" || (ofStream && packing.contains(key)))
                continue;
            addText(key);
            add(dictionary.getKey(key), depth + 1);
        }
        addText("end");
    }

    QCryptographicHash m_hash{QCryptographicHash::Sha256};
    std::map<QPDFObjGen, std::size_t> m_seen;
};

QString shownHash(QPDF& pdf)
{
    ShownHash hash;
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages())
        for (const char* key : {"/MediaBox", "/CropBox", "/Rotate", "/Resources", "/Contents"})
            hash.add(page.getAttribute(key, false));
    return hash.result();
}

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

QPDFObjectHandle textOf(const QString& text)
{
    return QPDFObjectHandle::newUnicodeString(text.toStdString());
}

/// A list of entries under a parent, linked as the outline wants it (ISO 32000-1, 12.3.3).
class OutlineList
{
public:
    OutlineList(QPDF& pdf, const QPDFObjectHandle& parent)
        : m_pdf(pdf)
        , m_parent(parent)
    {
    }

    QPDFObjectHandle add(const Bookmark& mark, const QPDFObjectHandle& page)
    {
        QPDFObjectHandle entry = m_pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
        entry.replaceKey("/Title", textOf(mark.title));
        entry.replaceKey("/Parent", m_parent);
        QPDFObjectHandle target = QPDFObjectHandle::newArray();
        target.appendItem(page);
        target.appendItem(QPDFObjectHandle::newName("/XYZ"));
        target.appendItem(QPDFObjectHandle::newNull());
        target.appendItem(QPDFObjectHandle::newReal(mark.top, 1));
        target.appendItem(QPDFObjectHandle::newNull());
        entry.replaceKey("/Dest", target);
        if (m_count == 0) {
            m_parent.replaceKey("/First", entry);
        } else {
            entry.replaceKey("/Prev", m_last);
            m_last.replaceKey("/Next", entry);
        }
        m_parent.replaceKey("/Last", entry);
        m_last = entry;
        ++m_count;
        return entry;
    }
    [[nodiscard]] int count() const { return m_count; }

private:
    QPDF& m_pdf;
    QPDFObjectHandle m_parent;
    QPDFObjectHandle m_last;
    int m_count = 0;
};

void addOutline(QPDF& pdf, const std::vector<Bookmark>& bookmarks)
{
    std::vector<QPDFPageObjectHelper> pages = QPDFPageDocumentHelper(pdf).getAllPages();
    QPDFObjectHandle root = pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
    root.replaceKey("/Type", QPDFObjectHandle::newName("/Outlines"));
    OutlineList sections(pdf, root);
    for (std::size_t i = 0; i < bookmarks.size();) {
        const auto page = [&](const Bookmark& mark) {
            return pages.at(static_cast<std::size_t>(mark.page)).getObjectHandle();
        };
        QPDFObjectHandle section = sections.add(bookmarks[i], page(bookmarks[i]));
        OutlineList items(pdf, section);
        for (++i; i < bookmarks.size() && bookmarks[i].level > 1; ++i)
            items.add(bookmarks[i], page(bookmarks[i]));
        // Below zero: shown closed.
        if (items.count() > 0)
            section.replaceKey("/Count", QPDFObjectHandle::newInteger(-items.count()));
    }
    root.replaceKey("/Count", QPDFObjectHandle::newInteger(sections.count()));
    QPDFObjectHandle catalog = pdf.getRoot();
    catalog.replaceKey("/Outlines", root);
    catalog.replaceKey("/PageMode", QPDFObjectHandle::newName("/UseOutlines"));
}

void dressPdf(QPDF& pdf, const PdfDress& dress)
{
    QPDFObjectHandle catalog = pdf.getRoot();
    catalog.replaceKey("/Lang", textOf(dress.language));
    QPDFObjectHandle shown = QPDFObjectHandle::newDictionary();
    shown.replaceKey("/DisplayDocTitle", QPDFObjectHandle::newBool(true));
    catalog.replaceKey("/ViewerPreferences", shown);
    QPDFObjectHandle trailer = pdf.getTrailer();
    if (!trailer.getKey("/Info").isDictionary())
        trailer.replaceKey("/Info", pdf.makeIndirectObject(QPDFObjectHandle::newDictionary()));
    trailer.getKey("/Info").replaceKey("/Title", textOf(dress.title));
    if (!dress.bookmarks.empty())
        addOutline(pdf, dress.bookmarks);
}

/// Notes, stamps, drawings and form fields that lie over the pages; a record has none.
bool hasSomethingOver(QPDF& pdf)
{
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
        QPDFObjectHandle notes = page.getObjectHandle().getKey("/Annots");
        if (notes.isArray() && notes.getArrayNItems() > 0)
            return true;
    }
    return false;
}

} // namespace

tl::expected<QByteArray, QString> stampPdf(const QByteArray& bytes, const RecordStamp& stamp,
                                           const PdfDress& dress, const RecordSealer& sealer)
{
    try {
        QPDF pdf;
        open(pdf, bytes);
        dressPdf(pdf, dress);
        const std::string json =
            stampJson(sealed({stamp, pagesHash(pdf), {}, {}, shownHash(pdf)}, sealer))
                .toStdString();
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

tl::expected<StampFile, QString> readPdfStamp(const QByteArray& bytes)
{
    try {
        QPDF pdf;
        open(pdf, bytes);
        const QByteArray json = attachedStamp(pdf);
        if (json.isEmpty())
            return tl::unexpected(say("This PDF carries no stamp of a handover record."));
        const auto file = readStampJson(json);
        if (!file)
            return tl::unexpected(file.error());
        // A record of earlier days knows its pages only.
        if (file->pages != pagesHash(pdf) ||
            (!file->shown.isEmpty() && file->shown != shownHash(pdf)))
            return tl::unexpected(say("The pages of this PDF were changed after it was made."));
        if (hasSomethingOver(pdf))
            return tl::unexpected(say("Something was laid over the pages of this PDF after it was "
                                      "made: a note, a drawing or a field."));
        return *file;
    } catch (const std::exception& e) {
        return tl::unexpected(
            say("This file cannot be read as a PDF: %1.").arg(QString::fromUtf8(e.what())));
    }
}

} // namespace ramplight
