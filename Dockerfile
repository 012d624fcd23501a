# The server alone; the database and TLS are services of their own in compose.yaml.
FROM node:24-slim AS pages
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
RUN npm ci --omit=dev --no-audit --no-fund
COPY . .
RUN node start.mjs --build

FROM node:24-slim
ENV NODE_ENV=production
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
# The embedded PostgreSQL and the second Node are optional parts, and not needed here.
RUN npm ci --omit=dev --omit=optional --no-audit --no-fund && npm cache clean --force
COPY server server
COPY db db
COPY labels labels
COPY --from=pages /app/web/dist web/dist
RUN install -d -o node -g node /data
ENV DATA_DIR=/data
VOLUME /data
USER node
EXPOSE 4180
HEALTHCHECK --interval=10s --timeout=5s --start-period=30s --retries=3 \
  CMD ["node", "-e", "fetch('http://localhost:4180/api/health').then((answer) => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "server/main.ts"]
